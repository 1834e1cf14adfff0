/** Metal and caps along the lines of the roof, as strips on its planes. Where they lie and how wide they are the plan tells. */

import type { Plan } from '../api/client';
import { type Pose, type Vector, inSpace } from './pose';

interface Part {
  at: string;
  /** Triangles in space, inches. */
  corners: number[];
}

const plus = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const times = (a: Vector, by: number): Vector => [a[0] * by, a[1] * by, a[2] * by];
const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const long = (a: Vector) => Math.sqrt(dot(a, a));
const inInches = ([x, y, z]: number[]): Vector => [(x ?? 0) * 12, (y ?? 0) * 12, (z ?? 0) * 12];
const middle = (points: Vector[]): Vector => times(points.reduce(plus, [0, 0, 0]), 1 / Math.max(1, points.length));

type Planes = Map<string, Plan['roof']['planes'][number]>;

/** A strip along a segment, `wide` into the plane on the side of `towards`; its edge on the segment is raised by `raise`. */
function strip(pose: Pose, [from, to]: [Vector, Vector], towards: Vector, wide: number, lift: number, raise: Vector): number[] {
  const along = minus(to, from);
  const length = long(along);
  if (length < 1e-6) return [];
  const across = times(cross(pose.out, along), 1 / length);
  const into = times(across, dot(across, minus(towards, from)) < 0 ? -wide : wide);
  const [a, b] = [plus(from, raise), plus(to, raise)];
  const [c, d] = [to, from].map((at) => plus(plus(at, into), times(pose.out, lift))) as [Vector, Vector];
  return [a, b, c, a, c, d].flat();
}

/** Where surfaces meet that lie `lift` over two planes, from the planes' own line. */
function raised(poses: Pose[], lift: number): Vector {
  const [first, second] = poses;
  if (!first) return [0, 0, 0];
  if (!second) return times(first.out, lift);
  return times(plus(first.out, second.out), lift / (1 + dot(first.out, second.out)));
}

/** Run by run: on both sides of a line of the roof, or beside what it turns water round. */
export function metal(plan: Plan, poses: Map<string, Pose>, lift: number): Part[] {
  const planes: Planes = new Map(plan.roof.planes.map((plane) => [plane.id, plane]));
  const centre = (id: string) => middle((planes.get(id)?.outlines_ft[0] ?? []).map(inInches));
  return (plan.details.metal?.items ?? []).flatMap((item) =>
    item.runs.map((run) => {
      const own = poses.get(run.plane);
      const beside = run.line == null ? [run.plane] : (plan.roof.lines[run.line]?.planes ?? []);
      const sides = beside.flatMap((id) => poses.get(id) ?? []);
      const hole = plan.roof.openings.find((opening) => opening.name === run.opening);
      const raise = raised(sides, lift);
      const corners = run.pieces.flatMap(({ ends_in, girth_in }) => {
        if (!own) return [];
        const ends = ends_in.map(([u, v]) => inSpace(own, u ?? 0, v ?? 0, 0)) as [Vector, Vector];
        return beside.flatMap((id) => {
          const pose = poses.get(id);
          if (!pose) return [];
          const away = hole && minus(times(middle(ends), 2), middle(hole.outline_ft.map(inInches)));
          return strip(pose, ends, away ?? centre(id), girth_in / 2, lift, raise);
        });
      });
      return { at: run.at, corners };
    }),
  );
}

/** How near a guide's line must be to a line of the roof to be the same, inches. */
const SAME = 1;

/** Line by line, each side as wide as its guide, parted into as many caps as the order counts there. */
export function caps(plan: Plan, poses: Map<string, Pose>, lift: number): Part[] {
  const planes: Planes = new Map(plan.roof.planes.map((plane) => [plane.id, plane]));
  const counted = new Map(plan.order.filter(({ id }) => id.split(':')[0] === 'caps').flatMap(({ places }) => places.map((place) => [place.line, place] as const)));
  return plan.roof.lines.flatMap((line, index) => {
    const place = counted.get(index);
    if (!place) return [];
    const ends = line.ends_ft.map(inInches) as [Vector, Vector];
    const sides = line.planes.flatMap((id) => poses.get(id) ?? []);
    const raise = raised(sides, lift);
    const count = Math.max(1, Math.round(place.quantity));
    const part = (n: number): [Vector, Vector] => [n / count, (n + 0.97) / count].map((by) => plus(ends[0], times(minus(ends[1], ends[0]), by))) as [Vector, Vector];
    const corners = line.planes.flatMap((id) => {
      const pose = poses.get(id);
      const guide = plan.layout.planes.find((laid) => laid.id === id)?.guides.find(({ line_in }) => pose && line_in.every(([u, v]) => ends.some((end) => long(minus(inSpace(pose, u ?? 0, v ?? 0, 0), end)) < SAME)));
      if (!pose || !guide) return [];
      const towards = middle((planes.get(id)?.outlines_ft[0] ?? []).map(inInches));
      return Array.from({ length: count }, (_, n) => strip(pose, part(n), towards, guide.off_in, lift, raise)).flat();
    });
    return [{ at: place.at, corners }];
  });
}
