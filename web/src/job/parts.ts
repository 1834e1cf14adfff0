/** Dormers and openings of a job. */

import type { Measure } from '../core/length';
import { type Dormer, type Job, type Opening, type Plane, cleared } from './job';

export type PartKey = 'dormer' | 'opening' | 'plane';
type Part = Record<string, unknown>;

export function parts(job: Job, key: PartKey): Part[] {
  return (job[key] ?? []) as Part[];
}

function put(job: Job, key: PartKey, all: Part[]): Job {
  const { [key]: _, ...rest } = job;
  return (all.length > 0 ? { ...rest, [key]: all } : rest) as Job;
}

function freeName(all: Part[], word: string): string {
  const taken = new Set(all.map((part) => part.name));
  let name = word;
  for (let again = 2; taken.has(name); again += 1) name = `${word} ${again}`;
  return name;
}

/** A dormer on a plane, of an ordinary size, to be measured; `word` is its name if nothing else has it. */
export function addDormer(job: Job, on: string, across: string, word: string): Job {
  const dormer: Dormer = { name: freeName(parts(job, 'dormer'), word), kind: 'gable', on, across, up: '4 ft', width: '6 ft', wall_height: '4 ft', pitch: '8/12', overhang: '8 in', rake_overhang: '6 in' };
  return put(job, 'dormer', [...parts(job, 'dormer'), { ...dormer }]);
}

/** A plane that is taped by itself, of an ordinary size, to be measured. */
export function addPlane(job: Job, word: string): Job {
  const plane: Plane = { name: freeName(parts(job, 'plane'), word), pitch: '8/12', eave: '30 ft', top: '30 ft', left_rake: '16 ft', right_rake: '16 ft' };
  return put(job, 'plane', [...parts(job, 'plane'), { ...plane }]);
}

export type OpeningKind = Opening['kind'];

const SIZES: Record<OpeningKind, Partial<Opening>> = {
  chimney: { width: '36 in', height: '24 in' },
  skylight: { width: '24 in', height: '46 in' },
  vent: { width: '12 in', height: '12 in' },
  pipe: { diameter: '4 in' },
};

/** An opening over a plan point, of an ordinary size, to be measured; `word` is its name if nothing else has it. */
export function addOpening(job: Job, kind: OpeningKind, at: [Measure, Measure], word: string): Job {
  const opening: Opening = { name: freeName(parts(job, 'opening'), word), kind, at, ...SIZES[kind] };
  return put(job, 'opening', [...parts(job, 'opening'), { ...opening }]);
}

/** A place on a plane and a plan point shut each other out, and so do a pipe's and the others' sizes. */
export function setPart(job: Job, key: PartKey, index: number, change: Part): Job {
  const all = parts(job, key).map((part, at) => (at === index ? cleared({ ...shutOut(part, change), ...change }) : part));
  return put(job, key, all);
}

function shutOut(part: Part, change: Part): Part {
  const { at, plane, up, across, width, height, diameter, ...rest } = part;
  const isOpening = 'kind' in part && ('at' in part || 'plane' in part);
  if (!isOpening) return part;
  const spot = 'at' in change ? {} : 'plane' in change ? { plane, up: up ?? '6 ft', across: across ?? '6 ft' } : { at, plane, up, across };
  const isRound = change.kind === undefined ? undefined : change.kind === 'pipe';
  const size = isRound === undefined ? { width, height, diameter } : SIZES[change.kind as OpeningKind];
  return cleared({ ...rest, ...spot, ...size });
}

export function removePart(job: Job, key: PartKey, index: number): Job {
  return put(job, key, parts(job, key).filter((_, at) => at !== index));
}
