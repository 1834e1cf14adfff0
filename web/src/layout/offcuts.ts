/** Which pieces come from one unit, by the plan's own list of how units are cut. */

import type { components } from '../api/types';
import type { LaidPlane, Piece } from './pieces';

type Schemas = components['schemas'];
type Cutting = Schemas['Cutting'];
export type CutKind = Cutting['kinds'][number];

/** A kind of cut piece by its number in the cut list, counted from 0. */
export interface Numbered {
  number: number;
  kind: CutKind;
}

/** Units of which more than one piece is made. */
export interface Pair {
  /** How many units are cut so. */
  count: number;
  pieces: Numbered[];
}

/** What a cut piece is in the list for the saw. */
export function kindOf(cuttings: readonly Cutting[], laid: LaidPlane, piece: Piece): [Cutting, Numbered] | undefined {
  const cut = piece.cut ? laid.cuts.indexOf(piece.cut) : -1;
  if (cut < 0) return undefined;
  for (const cutting of cuttings) {
    const number = cutting.kinds.findIndex(({ places }) => places.some((place) => place.plane === laid.id && place.cut === cut && (place.courses[0] ?? 0) <= piece.course && piece.course <= (place.courses[1] ?? 0)));
    const kind = cutting.kinds[number];
    if (kind) return [cutting, { number, kind }];
  }
  return undefined;
}

/** The units that give more than one piece, one of them so. */
function pairs(cutting: Cutting, isMeant: (piece: Numbered) => boolean): Pair[] {
  const several = cutting.units.filter((unit) => unit.pieces.length > 1);
  const numbered = (number: number): Numbered[] => (cutting.kinds[number] ? [{ number, kind: cutting.kinds[number] }] : []);
  return several.map((unit) => ({ count: unit.count, pieces: unit.pieces.flatMap(({ kind }) => numbered(kind)) })).filter(({ pieces }) => pieces.some(isMeant));
}

/** With a piece on the plane. */
export function pairsOf(cuttings: readonly Cutting[], plane: string): Pair[] {
  return cuttings.flatMap((cutting) => pairs(cutting, ({ kind }) => kind.places.some((place) => place.plane === plane)));
}

/** With a piece of this kind. */
export function pairsWith(cutting: Cutting, number: number): Pair[] {
  return pairs(cutting, (piece) => piece.number === number);
}
