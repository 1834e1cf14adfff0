import { expect, test } from 'vitest';
import { freeName, options, taken, withOptions } from '../src/choose/option';
import { type Sheet, ownSheets, unsourced, withCopy, withoutSheet } from '../src/choose/sheets';
import { withAt } from '../src/form/place';
import { newJob } from '../src/job/job';
import { money } from '../src/price/money';

const SHIPPED: Sheet = {
  id: 'slate', name: 'Slate', invented: true, units: 'in',
  unit: { length: 20, source: 'Invented.' }, exposure: [{ greatest: 8, source: 'Invented.' }, { greatest: 9, source: 'Invented.' }],
};

test('a copy is kept with the job and taken away again', () => {
  const job = withCopy(withCopy(newJob('x'), SHIPPED, 'mine'), SHIPPED, 'mine too');
  expect(ownSheets(job).map((sheet) => sheet.id)).toEqual(['my-slate', 'my-slate-2']);
  expect(job.covering.sheet).toBe('my-slate-2');
  const left = withoutSheet(withoutSheet(job, 'my-slate-2', 'slate'), 'my-slate', 'slate');
  expect(left).toEqual({ ...newJob('x'), covering: { sheet: 'slate' } });
});

test('a figure that no shipped sheet has asks for its source, group by group', () => {
  expect(unsourced(SHIPPED, [SHIPPED])).toEqual([]);
  const typed = withAt(SHIPPED, ['exposure', 1, 'greatest'], 7) as unknown as Sheet;
  expect(unsourced(typed, [SHIPPED])).toEqual([['exposure', 2]]);
  const told = withAt(typed as unknown as Record<string, unknown>, ['exposure', 1, 'source'], 'Read on the stack.') as unknown as Sheet;
  expect(unsourced(told, [SHIPPED])).toEqual([]);
});

test('an option that is taken becomes what the job has, and leaves the rest', () => {
  const job = { ...newJob('x'), setting_out: { bond: 'third' as const, hips: 'capped' as const } };
  const { covering, setting_out } = taken(job, { name: 'o', sheet: 'plain-tile', hips: 'matched', exposure: '4 in' });
  expect([covering.sheet, setting_out]).toEqual(['plain-tile', { bond: 'third', hips: 'capped', exposure: '4 in', match_hips: true }]);
  expect(taken(newJob('x'), { name: 'as it is' })).toEqual(newJob('x'));
});

test('options come and go without a trace', () => {
  const one = withOptions(newJob('x'), [{ name: 'tile' }]);
  expect(options(one)).toHaveLength(1);
  expect(freeName(options(one), 'tile')).toBe('tile 2');
  expect(withOptions(one, [])).toEqual(newJob('x'));
});

test('a value is put at its place, and an emptied table goes', () => {
  expect(withAt({ a: 1 }, ['b', 'c'], 2)).toEqual({ a: 1, b: { c: 2 } });
  expect(withAt({ a: 1, b: { c: 2 } }, ['b', 'c'], undefined)).toEqual({ a: 1 });
  expect(withAt({ rows: [{ x: 1 }, { x: 2 }] }, ['rows', 0], undefined)).toEqual({ rows: [{ x: 2 }] });
  expect(withAt({ rows: [{ x: 1 }] }, ['rows', 1], { x: 2 })).toEqual({ rows: [{ x: 1 }, { x: 2 }] });
  expect(withAt({ rows: [{ x: 1 }] }, ['rows', 0, 'x'], undefined)).toEqual({});
  expect(Object.keys(withAt({ a: 1, b: 2, c: 3 }, ['b'], 4))).toEqual(['a', 'b', 'c']);
});

test('an amount is grouped as it came, to the cent', () => {
  expect(money('$', '1234567.80')).toBe('$ 1,234,567.80');
  expect(money('EUR', '0.00')).toBe('EUR 0.00');
  expect(money('$', '83.40')).toBe('$ 83.40');
});
