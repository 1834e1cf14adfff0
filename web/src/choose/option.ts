/** Ways to cover the roof: the options that a job names, and one of them taken as the job's own. */

import type { components } from '../api/types';
import { type Job, cleared } from '../job/job';

export type Option = components['schemas']['OptionTable'];

export function options(job: Job): Option[] {
  return job.price?.option ?? [];
}

export function withOptions(job: Job, all: Option[]): Job {
  const { option: _, ...rest } = job.price ?? {};
  const price = all.length > 0 ? { ...rest, option: all } : rest;
  const { price: __, ...others } = job;
  return Object.keys(price).length > 0 ? { ...others, price } : others;
}

/** A name that no option has. */
export function freeName(all: readonly Option[], word: string): string {
  const taken = new Set(all.map((option) => option.name));
  let name = word;
  for (let again = 2; taken.has(name); again += 1) name = `${word} ${again}`;
  return name;
}

/** The job laid as an option has it; what the option leaves open stays as it is. */
export function taken(job: Job, option: Option): Job {
  const { sheet, exposure, valleys, bond, hips } = option;
  const setting_out = cleared({
    ...job.setting_out,
    ...cleared({ exposure: exposure ?? undefined, valleys: valleys ?? undefined, bond: bond ?? undefined }),
    ...(hips ? { match_hips: hips !== 'capped', hips: hips === 'matched' ? job.setting_out?.hips : hips } : {}),
  });
  const { setting_out: _, ...rest } = job;
  return { ...rest, covering: { sheet: sheet ?? job.covering.sheet }, ...(Object.keys(setting_out).length > 0 ? { setting_out } : {}) } as Job;
}
