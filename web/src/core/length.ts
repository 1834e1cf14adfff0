/**
 * The one place where a length or an angle is reckoned outside the planner: under the pointer, and to draw what a job file says.
 * Tested on the same vectors as the planner's own reading (`crates/units/tests/data/lengths.json`).
 */

export type Unit = 'ft' | 'in' | 'm' | 'mm';
export type Measure = string | number;
export type Point = [number, number];

const IN: Record<Unit, number> = { ft: 12, in: 1, m: 1000 / 25.4, mm: 1 / 25.4 };
const VULGAR: Record<string, number> = { '½': 1 / 2, '¼': 1 / 4, '¾': 3 / 4, '⅛': 1 / 8, '⅜': 3 / 8, '⅝': 5 / 8, '⅞': 7 / 8 };
const NUMBER = String.raw`(\d+\/\d+|[½¼¾⅛⅜⅝⅞]|[\d.]+(?:[½¼¾⅛⅜⅝⅞]|(?:-|\s*)\d+\/\d+)?)`;
const FEET = String.raw`(?:feet|foot|ft\.|ft|'(?!')|′|’)`;
const INCHES = String.raw`(?:''|inches|inch|in\.|in|"|″|”)`;
const METRIC = String.raw`(mm|cm|metres|m)`;
const IMPERIAL = new RegExp(String.raw`^\s*(-?)\s*(?:${NUMBER}\s*${FEET}\s*)?(?:${NUMBER}\s*(${INCHES})?)?\s*$`);
const METRES = new RegExp(String.raw`^\s*(-?)\s*${NUMBER}\s*${METRIC}\s*$`);
const FACTOR: Record<string, number> = { mm: 1, cm: 10, m: 1000, metres: 1000 };

/** Inches, or `undefined` where the text is no length. */
export function inches(measure: Measure, unit: Unit): number | undefined {
  if (typeof measure === 'number') return Number.isFinite(measure) ? measure * IN[unit] : undefined;
  const metric = METRES.exec(measure);
  if (metric) {
    const value = number(metric[2] ?? '');
    return value === undefined ? undefined : signed(metric[1], (value * (FACTOR[metric[3] ?? ''] ?? 1)) / 25.4);
  }
  const parts = IMPERIAL.exec(measure);
  if (!parts) return undefined;
  const [, sign, feet, rest, mark] = parts;
  if (feet === undefined && (rest === undefined || mark === undefined)) return undefined;
  const [whole, part] = [feet === undefined ? 0 : number(feet), rest === undefined ? 0 : number(rest)];
  return whole === undefined || part === undefined ? undefined : signed(sign, whole * 12 + part);
}

function signed(sign: string | undefined, value: number): number {
  return sign ? -value : value;
}

function number(text: string): number | undefined {
  const vulgar = VULGAR[text.slice(-1)];
  if (vulgar !== undefined) return text.length === 1 ? vulgar : decimal(text.slice(0, -1), vulgar);
  const [, whole, top, bottom] = /^(?:([\d.]+)(?:-|\s+))?(\d+)\/(\d+)$/.exec(text) ?? [];
  if (top === undefined || bottom === undefined) return decimal(text, 0);
  const [over, under] = [Number(top), Number(bottom)];
  if (![2, 4, 8, 16, 32, 64].includes(under) || over >= under) return undefined;
  return whole === undefined ? over / under : decimal(whole, over / under);
}

function decimal(text: string, more: number): number | undefined {
  return /^(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) + more : undefined;
}

/** Feet, inches and sixteenths: `9' 3-1/8"`; below a foot `7-1/2"`. */
export function shown(length: number): string {
  const total = Math.round(Math.abs(length) * 16);
  const sign = length < 0 && total > 0 ? '-' : '';
  const [whole, sixteenths] = [Math.floor(total / 16), total % 16];
  const feet = Math.floor(whole / 12);
  return feet === 0 ? `${sign}${mixed(whole, sixteenths)}"` : `${sign}${feet}' ${mixed(whole % 12, sixteenths)}"`;
}

function mixed(whole: number, sixteenths: number): string {
  let [top, bottom] = [sixteenths, 16];
  while (top > 0 && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  if (top === 0) return String(whole);
  return whole === 0 ? `${top}/${bottom}` : `${whole}-${top}/${bottom}`;
}

/** In the job's own kind of unit. */
export function shownIn(length: number, unit: Unit): string {
  if (unit === 'm') return `${(length * 0.0254).toFixed(3)} m`;
  if (unit === 'mm') return `${Math.round(length * 25.4)} mm`;
  return shown(length);
}

export function distance([x, y]: Point, [ax, ay]: Point): number {
  return Math.hypot(ax - x, ay - y);
}

/** Degrees counter-clockwise from +x, 0 to 360. */
export function toward([x, y]: Point, [ax, ay]: Point): number {
  return ((Math.atan2(ay - y, ax - x) * 180) / Math.PI + 360) % 360;
}

/** Directions within this many degrees of square or of 45° are meant to be so. */
const NEARLY = 6;

/** The leg from a corner to the pointer: square or at 45° where it nearly is, its length to the step, unless it is free. */
export function leg(from: Point, to: Point, step: number, free: boolean): { toward_deg: number; length: number } {
  const angle = toward(from, to);
  const round = Math.round(angle / 45) * 45;
  const isNear = !free && Math.abs(angle - round) <= NEARLY;
  const direction = (isNear ? round : Math.round(angle * 10) / 10) % 360;
  // Along a direction that was straightened, only what lies in it counts.
  const along = distance(from, to) * (isNear ? Math.cos(((angle - round) * Math.PI) / 180) : 1);
  return { toward_deg: direction, length: Math.max(step, Math.round(along / step) * step) };
}

/** A dragged corner: in line with another where it nearly is, else to the step. */
export function snapped(at: Point, others: Point[], near: number, step: number, free: boolean): Point {
  const axis = (index: 0 | 1): number => {
    const lines = free ? [] : others.map((other) => other[index]).filter((line) => Math.abs(line - at[index]) <= near);
    const nearest = lines.sort((a, b) => Math.abs(a - at[index]) - Math.abs(b - at[index]))[0];
    return nearest ?? Math.round(at[index] / step) * step;
  };
  return [axis(0), axis(1)];
}
