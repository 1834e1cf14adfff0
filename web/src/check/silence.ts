/** Findings that somebody has looked at and accepts; they stay in the plan and are printed with the reason. */

import type { Job } from '../job/job';

export function silence(job: Job, rule: string, reason: string): Job {
  return { ...job, silence: [...(job.silence ?? []), { rule, reason }] };
}

export function speak(job: Job, rule: string): Job {
  const { silence: all, ...rest } = job;
  const left = (all ?? []).filter((one) => one.rule !== rule);
  return left.length > 0 ? { ...rest, silence: left } : rest;
}
