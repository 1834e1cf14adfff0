/** Covering sheets: those that ship, and copies that a job keeps with figures of its own. */

import type { Job } from '../job/job';

export interface Sheet {
  id: string;
  name: string;
  invented: boolean;
  units: string;
  unit: Record<string, unknown>;
  exposure: Record<string, unknown>[];
  [group: string]: unknown;
}

export function ownSheets(job: Job): Sheet[] {
  return (job.sheet ?? []) as unknown as Sheet[];
}

/** The job laid in a copy of a sheet, which it keeps. */
export function withCopy(job: Job, sheet: Sheet, name: string): Job {
  const taken = new Set(ownSheets(job).map((own) => own.id));
  let id = `my-${sheet.id}`;
  for (let again = 2; taken.has(id); again += 1) id = `my-${sheet.id}-${again}`;
  const copy = { ...sheet, id, name };
  return { ...job, covering: { sheet: id }, sheet: [...(job.sheet ?? []), copy] } as unknown as Job;
}

/** Without an own sheet; what was laid in it is laid in another. */
export function withoutSheet(job: Job, id: string, instead: string): Job {
  const { sheet, ...rest } = job;
  const left = (sheet ?? []).filter((own) => own.id !== id);
  const covering = job.covering.sheet === id ? { sheet: instead } : job.covering;
  return { ...rest, covering, ...(left.length > 0 ? { sheet: left } : {}) };
}

type Table = Record<string, unknown>;
const isTable = (value: unknown): value is Table => typeof value === 'object' && value !== null && !Array.isArray(value);

/** The key of a group, of one among several with its number. */
export type Group = [key: string, number?: number];

/** Groups of a sheet that have a source of their own. */
function sourced(sheet: Table): [Group, Table][] {
  const all = Object.entries(sheet).flatMap(([name, value]): [Group, unknown][] => (Array.isArray(value) ? value.map((one, n) => [[name, n + 1], one]) : [[[name], value]]));
  return all.filter((group): group is [Group, Table] => isTable(group[1]) && 'source' in group[1]);
}

const figures = ({ source: _, ...rest }: Table) => JSON.stringify(rest);

/** Groups with figures that no shipped sheet has, under a source that one has: whoever typed them has not told where from. */
export function unsourced(own: Sheet, shipped: readonly Sheet[]): Group[] {
  const groups = shipped.flatMap((sheet) => sourced(sheet).map(([, group]) => group));
  const [known, sources] = [new Set(groups.map(figures)), new Set(groups.map((group) => group.source))];
  return sourced(own).filter(([, group]) => sources.has(group.source) && !known.has(figures(group))).map(([group]) => group);
}
