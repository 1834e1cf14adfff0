/** Undo and redo without limit, over values that are never changed. */

export interface Step<T> {
  /** What was done, in words. */
  what: string;
  /** The value before it was done. */
  before: T;
  /** The value after. */
  after: T;
}

export interface History<T> {
  now: T;
  /** Oldest first. */
  done: readonly Step<T>[];
  /** The next to be done again last. */
  undone: readonly Step<T>[];
}

export function begin<T>(now: T): History<T> {
  return { now, done: [], undone: [] };
}

/** Does something new; what was undone before can no longer be done again. */
export function act<T>(history: History<T>, what: string, after: T): History<T> {
  return { now: after, done: [...history.done, { what, before: history.now, after }], undone: [] };
}

export function undo<T>(history: History<T>): History<T> {
  const last = history.done.at(-1);
  if (!last) return history;
  return { now: last.before, done: history.done.slice(0, -1), undone: [...history.undone, last] };
}

export function redo<T>(history: History<T>): History<T> {
  const next = history.undone.at(-1);
  if (!next) return history;
  return { now: next.after, done: [...history.done, next], undone: history.undone.slice(0, -1) };
}
