import { expect, test } from 'vitest';
import { inSpace, poseOf } from '../src/see/pose';

test('a plane of 12 in 12 stands in space where its corners are', () => {
  // Facing south: u runs east, v up the slope; at 45° the slope is √2 times its run.
  const pose = poseOf([[0, 0], [120, 0], [120, 60 * Math.SQRT2], [0, 60 * Math.SQRT2]], [[1, 2, 9], [11, 2, 9], [11, 7, 14], [1, 7, 14]]);
  if (!pose) throw new Error('no pose');
  const near = (a: number[], b: number[]) => a.forEach((value, axis) => expect(value).toBeCloseTo(b[axis] ?? Number.NaN, 9));
  near(pose.right, [1, 0, 0]);
  near(pose.up, [0, Math.SQRT1_2, Math.SQRT1_2]);
  near(pose.out, [0, -Math.SQRT1_2, Math.SQRT1_2]);
  near(inSpace(pose, 120, 60 * Math.SQRT2, 0), [132, 84, 168]);
  near(inSpace(pose, 0, 0, Math.SQRT2), [12, 23, 109]);
});

test('a ring without area has no pose', () => {
  expect(poseOf([[0, 0], [1, 0], [2, 0]], [[0, 0, 0], [1, 0, 0], [2, 0, 0]])).toBeUndefined();
});
