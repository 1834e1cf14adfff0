/** Where a plan lies on the sheet: +y up, all of it in sight, in inches. */

import type { Point } from '../core/length';

export interface View {
  /** Of the drawing: left, top, width, height; y counted down. */
  box: [number, number, number, number];
  /** Inches to a pixel. */
  scale: number;
}

/** Room round the plan for dimension lines, px. */
const ROOM = 84;
/** What an empty sheet shows, inches. */
const EMPTY = 60 * 12;

export function viewOf(points: Point[], width: number, height: number): View {
  const room = Math.min(ROOM, width / 5, height / 5);
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const least = points.length === 0 ? [-60, -60] : [Math.min(...xs), Math.min(...ys)];
  const most = points.length === 0 ? [EMPTY, EMPTY * 0.6] : [Math.max(...xs), Math.max(...ys)];
  const [across, up] = [0, 1].map((axis) => Math.max((most[axis] ?? 0) - (least[axis] ?? 0), 24)) as Point;
  const scale = Math.max(across / (width - 2 * room), up / (height - 2 * room));
  const middle = [0, 1].map((axis) => ((least[axis] ?? 0) + (most[axis] ?? 0)) / 2) as Point;
  const [w, h] = [width * scale, height * scale];
  return { box: [middle[0] - w / 2, -middle[1] - h / 2, w, h], scale };
}

/** The plan point under a place of the drawing on the screen. */
export function planPoint(view: View, frame: DOMRect, x: number, y: number): Point {
  const [left, top, width, height] = view.box;
  return [left + ((x - frame.left) / frame.width) * width, -(top + ((y - frame.top) / frame.height) * height)];
}
