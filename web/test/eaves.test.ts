import { expect, test } from 'vitest';
import type { Plan } from '../src/api/client';
import { eavesOf, standAt } from '../src/see/eaves';

/** One plane that rises to the north from an eave of 20 ft along x. */
const plan = {
  roof: {
    planes: [{ id: 'a', name: 'south', outlines_ft: [[[0, 0, 9], [20, 0, 9], [20, 10, 15], [0, 10, 15]]] }],
    lines: [
      { kind: 'eave', planes: ['a'], ends_ft: [[20, 0, 9], [0, 0, 9]] },
      { kind: 'ridge', planes: ['a'], ends_ft: [[0, 10, 15], [20, 10, 15]] },
    ],
  },
} as unknown as Plan;

test('one stands before the eave, looks up the slope, and walks from end to end', () => {
  const [eave, ...others] = eavesOf(plan);
  if (!eave) throw new Error('no eave');
  expect(others).toEqual([]);
  expect(eave.out[1]).toBe(-1);
  const [start, end] = [standAt(eave, 0), standAt(eave, 1)];
  expect([start.at[0], end.at[0]]).toEqual([240, 0]);
  expect(start.at[1]).toBeLessThan(0);
  expect(start.at[2]).toBeGreaterThan(9 * 12);
  expect(start.to[1]).toBeGreaterThan(0);
});
