import type { Plan } from '../api/client';

export type Check = Plan['checks'][number];

/** In the order in which they are shown. */
export const GROUPS = ['fail', 'attention', 'kept', 'not-applicable', 'pass'] as const;
export type Group = (typeof GROUPS)[number];

/** What is kept and was only not read wants no cure, only somebody who reads the text. */
export function groupOf(check: Check): Group {
  return check.outcome === 'attention' && check.kept ? 'kept' : (check.outcome as Group);
}

/** The checks of one group that nobody has accepted. */
export function inGroup(checks: readonly Check[], group: Group): Check[] {
  return checks.filter((check) => groupOf(check) === group && !check.silenced);
}
