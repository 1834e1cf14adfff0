/** Finds the piece at a place of a plane in the plan's own rows. Nothing is laid here. */

import type { components } from '../api/types';
import type { Point } from '../core/length';

type Schemas = components['schemas'];
export type LaidPlane = Schemas['LaidPlane'];
export type Course = Schemas['Course'];
export type Cut = Schemas['Cut'];

/** A piece by its course and its number in it, both counted from 0. */
export interface Piece {
  course: number;
  /** Counted from the left. */
  number: number;
  /** Of how many in the course. */
  of: number;
  /** Left side of the unit before cutting, and its butt. */
  at: Point;
  width: number;
  length: number;
  cut: Cut | undefined;
  /** What is seen of it on the plane: the whole unit, or the parts that are left. */
  parts: Point[][];
  nails: Point[];
}

/** Every piece of a course from left to right. */
export function piecesOf(laid: LaidPlane, course: number): Piece[] {
  const row = laid.courses[course];
  if (!row) return [];
  const all = row.runs.flatMap((run) => Array.from({ length: run.count }, (_, n) => ({ run, left: run.left_in + n * run.step_in })));
  return all.map(({ run, left }, number) => {
    const unit = laid.units[run.unit ?? 0] ?? { length_in: 0, width_in: 0, nails_in: [] };
    const cut = run.cut == null ? undefined : laid.cuts[run.cut];
    const at: Point = [left, row.butt_in];
    const moved = (points: number[][]) => points.map(([u, v]): Point => [at[0] + (u ?? 0), at[1] + (v ?? 0)]);
    const whole = [[0, 0], [run.width_in, 0], [run.width_in, unit.length_in], [0, unit.length_in]];
    const parts = (cut ? cut.parts_in : [whole]).map(moved);
    const nails = moved(cut ? cut.nails_in : unit.nails_in);
    return { course, number, of: all.length, at, width: run.width_in, length: unit.length_in, cut, parts, nails };
  });
}

/** The course whose units are seen at a height. */
export function courseAt(laid: LaidPlane, v: number): number | undefined {
  const at = laid.courses.findLastIndex((course) => course.butt_in <= v);
  return at < 0 || v > laid.top_in + 24 ? undefined : at;
}

/** The piece that is seen at a place, or the nearest of its course. */
export function pieceAt(laid: LaidPlane, [u, v]: Point): Piece | undefined {
  const course = courseAt(laid, v);
  if (course === undefined) return undefined;
  const off = (piece: Piece) => Math.max(piece.at[0] - u, u - piece.at[0] - piece.width, 0);
  return piecesOf(laid, course).sort((a, b) => off(a) - off(b))[0];
}

/** The piece beside this one, or the one over or under its middle. */
export function neighbour(laid: LaidPlane, piece: Piece, step: 'left' | 'right' | 'up' | 'down'): Piece {
  const along = { left: -1, right: 1, up: 0, down: 0 }[step];
  if (along !== 0) return piecesOf(laid, piece.course)[piece.number + along] ?? piece;
  const row = laid.courses[piece.course + (step === 'up' ? 1 : -1)];
  return (row && pieceAt(laid, [piece.at[0] + piece.width / 2, row.butt_in + 0.01])) || piece;
}

/** The pieces of the course below that this one lies on. */
export function under(laid: LaidPlane, piece: Piece): Piece[] {
  const [left, right] = [piece.at[0], piece.at[0] + piece.width];
  return piecesOf(laid, piece.course - 1).filter((below) => below.at[0] < right && below.at[0] + below.width > left);
}
