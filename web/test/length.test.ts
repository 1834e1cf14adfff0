import fc from 'fast-check';
import { expect, test } from 'vitest';
import vectors from '../../crates/units/tests/data/lengths.json';
import { distance, inches, leg, shown, snapped, toward } from '../src/core/length';

test.each(vectors as [string, number | null][])('%s reads as the planner reads it', (text, expected) => {
  const read = inches(text, 'ft');
  if (expected === null) expect(read).toBeUndefined();
  else expect(read).toBeCloseTo(expected, 12);
});

test('a bare number is in the unit of the job', () => {
  expect(inches(2, 'ft')).toBe(24);
  expect(inches(2, 'in')).toBe(2);
  expect(inches(25.4, 'mm')).toBeCloseTo(1, 12);
  expect(inches(Number.NaN, 'ft')).toBeUndefined();
});

test('every sixteenth to a thousand feet is shown so that it reads the same', () => {
  fc.assert(fc.property(fc.integer({ min: -192_000, max: 192_000 }), (sixteenths) => inches(shown(sixteenths / 16), 'ft') === sixteenths / 16));
});

test('lengths and angles of right triangles', () => {
  expect(distance([0, 0], [3, 4])).toBe(5);
  expect(toward([0, 0], [0, 2])).toBe(90);
  expect(toward([0, 0], [-1, -1])).toBe(225);
});

test('a leg that is nearly square is square, unless it is free', () => {
  expect(leg([0, 0], [100, 3], 1, false)).toEqual({ toward_deg: 0, length: 100 });
  expect(leg([0, 0], [3, -100], 1, false)).toEqual({ toward_deg: 270, length: 100 });
  expect(leg([0, 0], [100, 3], 1, true).toward_deg).toBeCloseTo(1.7, 5);
  expect(leg([0, 0], [0, 0], 6, false).length).toBe(6);
});

test('a dragged corner comes in line with another', () => {
  expect(snapped([99, 50.3], [[100, 0], [0, 49]], 2, 1, false)).toEqual([100, 49]);
  expect(snapped([99.2, 50.3], [[100, 0]], 2, 1, true)).toEqual([99, 50]);
});
