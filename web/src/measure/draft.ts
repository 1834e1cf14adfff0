/** An outline that is being walked round: what was typed, leg by leg. The planner turns it into corners. */

import { type Measure, type Point, type Unit, inches, shownIn } from '../core/length';

export interface Leg {
  toward_deg: number;
  length: string;
}

export interface Draft {
  from: [string, string];
  legs: readonly Leg[];
  /** Where the next leg points. */
  toward_deg: number;
}

export const ARROWS: Record<string, number> = { ArrowRight: 0, ArrowUp: 90, ArrowLeft: 180, ArrowDown: 270 };

export function beginDraft(from: [string, string] = ['0', '0']): Draft {
  return { from, legs: [], toward_deg: 0 };
}

/** Adds a leg and turns left, as most outlines that are walked against the clock do. */
export function addLeg(draft: Draft, leg: Leg): Draft {
  return { ...draft, legs: [...draft.legs, leg], toward_deg: (leg.toward_deg + 90) % 360 };
}

export function takeBack(draft: Draft): Draft {
  const last = draft.legs.at(-1);
  return last ? { ...draft, legs: draft.legs.slice(0, -1), toward_deg: last.toward_deg } : draft;
}

export function point(draft: Draft, toward_deg: number): Draft {
  return { ...draft, toward_deg: ((toward_deg % 360) + 360) % 360 };
}

/** The corners of a closed outline: a last corner on the first one is the same corner. */
export function closed(corners: [Measure, Measure][], unit: Unit): [Measure, Measure][] {
  const [first, last] = [corners[0], corners.at(-1)];
  if (!first || !last || corners.length < 2) return corners;
  const isSame = [0, 1].every((axis) => Math.abs((inches(first[axis] ?? 0, unit) ?? 0) - (inches(last[axis] ?? 0, unit) ?? 0)) < 1 / 32);
  return isSame ? corners.slice(0, -1) : corners;
}

export function measures([x, y]: Point, unit: Unit): [string, string] {
  return [shownIn(x, unit), shownIn(y, unit)];
}
