/** How a plane of the plan stands in space: the plan gives the same corners in both. */

export type Vector = [number, number, number];

export interface Pose {
  /** Where u and v are 0, inches. */
  origin: Vector;
  /** Along u, up v, and out of the roof: of length 1. */
  right: Vector;
  up: Vector;
  out: Vector;
}

const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const plus = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const times = (a: Vector, by: number): Vector => [a[0] * by, a[1] * by, a[2] * by];
const cross = (a: Vector, b: Vector): Vector => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];

/** From the three corners of a ring that span most; nothing for a ring without area. */
export function poseOf(flat: number[][], inFeet: number[][]): Pose | undefined {
  const space = inFeet.map(([x, y, z]): Vector => [(x ?? 0) * 12, (y ?? 0) * 12, (z ?? 0) * 12]);
  let best: { area: number; at: [number, number] } | undefined;
  const off = (corner: number): [number, number] => [(flat[corner]?.[0] ?? 0) - (flat[0]?.[0] ?? 0), (flat[corner]?.[1] ?? 0) - (flat[0]?.[1] ?? 0)];
  for (let a = 1; a < flat.length; a += 1) {
    for (let b = a + 1; b < flat.length; b += 1) {
      const area = off(a)[0] * off(b)[1] - off(b)[0] * off(a)[1];
      if (Math.abs(area) > Math.abs(best?.area ?? 0)) best = { area, at: [a, b] };
    }
  }
  const first = space[0];
  if (!best || !first || Math.abs(best.area) < 1e-6) return undefined;
  const [[u1, v1], [u2, v2]] = [off(best.at[0]), off(best.at[1])];
  const [p1, p2] = best.at.map((corner) => minus(space[corner] ?? first, first)) as [Vector, Vector];
  const right = times(minus(times(p1, v2), times(p2, v1)), 1 / best.area);
  const up = times(minus(times(p2, u1), times(p1, u2)), 1 / best.area);
  const [u, v] = [flat[0]?.[0] ?? 0, flat[0]?.[1] ?? 0];
  return { origin: minus(minus(first, times(right, u)), times(up, v)), right, up, out: cross(right, up) };
}

/** A place on the plane, `lift` inches off it. */
export function inSpace(pose: Pose, u: number, v: number, lift: number): Vector {
  return plus(pose.origin, plus(times(pose.right, u), plus(times(pose.up, v), times(pose.out, lift))));
}
