/** A value somewhere in a table, named by the steps that lead to it. Nothing is changed in place. */

export type Steps = readonly (string | number)[];
type Table = Record<string, unknown>;

/** The table with another value there; what stays empty after `undefined` goes, and so does a table that holds nothing more. */
export function withAt(table: Table, steps: Steps, value: unknown): Table {
  return (put(table, steps, value) ?? {}) as Table;
}

function put(old: unknown, [step, ...rest]: Steps, value: unknown): unknown {
  if (step === undefined) return value;
  if (typeof step === 'number') {
    const list = [...((old ?? []) as unknown[])];
    const next = put(list[step], rest, value);
    list.splice(step, 1, ...(next === undefined ? [] : [next]));
    return list.length > 0 ? list : undefined;
  }
  const { [step]: inner, ...others } = (old ?? {}) as Table;
  const next = put(inner, rest, value);
  if (next === undefined) return Object.keys(others).length > 0 ? others : undefined;
  // A key keeps its place, so that the job file stays readable.
  return inner === undefined ? { ...others, [step]: next } : { ...(old as Table), [step]: next };
}
