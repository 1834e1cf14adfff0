/** Where somebody stands who walks along an eave: on a scaffold before it, at the height of the eyes. */

import type { Plan } from '../api/client';
import type { Vector } from './pose';

export interface Eave {
  /** As the plan names the plane over it. */
  plane: string;
  from: Vector;
  to: Vector;
  /** Level, square to the eave, away from the plane; of length 1. */
  out: Vector;
}

/** Before the eave, over it, and how far over it one looks up the slope, inches. */
const [BEFORE, OVER, UP] = [96, 66, 14];

const inInches = ([x, y, z]: number[]): Vector => [(x ?? 0) * 12, (y ?? 0) * 12, (z ?? 0) * 12];

/** Every eave of the roof, as the plan has them. */
export function eavesOf(plan: Plan): Eave[] {
  return plan.roof.lines.flatMap((line) => {
    const plane = plan.roof.planes.find(({ id }) => id === line.planes[0]);
    const [from, to] = line.ends_ft.map(inInches);
    if (line.kind !== 'eave' || !plane || !from || !to) return [];
    const [across, along] = [to[0] - from[0], to[1] - from[1]];
    const long = Math.hypot(across, along);
    if (long < 1) return [];
    const corners = (plane.outlines_ft[0] ?? []).map(inInches);
    const inside = corners.reduce((sum, [x, y]) => sum + (x - from[0]) * along - (y - from[1]) * across, 0);
    const side = inside > 0 ? -1 : 1;
    return [{ plane: plane.name, from, to, out: [(along / long) * side, (-across / long) * side, 0] as Vector }];
  });
}

/** Where one stands and what one looks at, `part` of the way along, 0 to 1. */
export function standAt({ from, to, out }: Eave, part: number): { at: Vector; to: Vector } {
  const on = [0, 1, 2].map((axis) => (from[axis] ?? 0) + ((to[axis] ?? 0) - (from[axis] ?? 0)) * part) as Vector;
  return { at: [on[0] + out[0] * BEFORE, on[1] + out[1] * BEFORE, on[2] + OVER], to: [on[0] - out[0] * UP, on[1] - out[1] * UP, on[2] + UP] };
}
