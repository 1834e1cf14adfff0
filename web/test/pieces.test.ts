import { expect, test } from 'vitest';
import { type LaidPlane, courseAt, neighbour, pieceAt, piecesOf, under } from '../src/layout/pieces';

/** Two courses of three units 10 wide and 18 long, gap 1; the second begins with half a unit cut at a rake. */
const LAID = {
  first_butt_in: 0,
  top_in: 14,
  units: [{ length_in: 18, width_in: 10, nails_in: [[2, 9], [8, 9]] }],
  cuts: [{ parts_in: [[[5, 0], [10, 0], [10, 18], [5, 18]]], width_in: 5, area_sqin: 90, bevels: [], made: { butt: true, left: false, right: true }, nails_in: [[7, 9]] }],
  courses: [
    { butt_in: 0, exposure_in: 7, headlap_in: 4, spans_in: [], joints_in: [], runs: [{ left_in: 0, width_in: 10, step_in: 11, count: 3 }] },
    {
      butt_in: 7,
      exposure_in: 7,
      headlap_in: 4,
      spans_in: [],
      joints_in: [],
      runs: [{ left_in: -5, width_in: 10, step_in: 0, count: 1, cut: 0 }, { left_in: 6, width_in: 10, step_in: 11, count: 2 }],
    },
  ],
} as unknown as LaidPlane;

test('a place shows the piece whose exposed part is there', () => {
  expect(courseAt(LAID, 6.9)).toBe(0);
  expect(courseAt(LAID, 7.1)).toBe(1);
  expect(courseAt(LAID, -1)).toBeUndefined();
  expect(pieceAt(LAID, [12, 3])).toMatchObject({ course: 0, number: 1, of: 3, at: [11, 0] });
  expect(pieceAt(LAID, [500, 3])).toMatchObject({ number: 2 });
});

test('a cut piece has its own parts and nails where they lie on the plane', () => {
  const [cut] = piecesOf(LAID, 1);
  expect(cut?.parts).toEqual([[[0, 7], [5, 7], [5, 25], [0, 25]]]);
  expect(cut?.nails).toEqual([[2, 16]]);
});

test('from piece to piece, and to those below', () => {
  const piece = pieceAt(LAID, [12, 3]);
  if (!piece) throw new Error('no piece');
  expect(neighbour(LAID, piece, 'right').number).toBe(2);
  expect(neighbour(LAID, neighbour(LAID, piece, 'right'), 'right').number).toBe(2);
  expect(neighbour(LAID, piece, 'down')).toBe(piece);
  const above = neighbour(LAID, piece, 'up');
  expect(above).toMatchObject({ course: 1, number: 1 });
  expect(under(LAID, above).map((below) => below.number)).toEqual([0, 1]);
});
