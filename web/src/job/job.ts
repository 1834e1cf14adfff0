/** The job file's own data, and what the screens change in it. Every function gives a new job and leaves the old one alone. */

import type { components } from '../api/types';
import { type Measure, type Point, type Unit, inches } from '../core/length';

type Schemas = components['schemas'];
export type Job = Schemas['JobFile'];
export type Block = Schemas['BlockTable'];
export type Edge = Schemas['EdgeTable'];
export type Dormer = Schemas['DormerTable'];
export type Opening = Schemas['OpeningTable'];
export type Plane = Schemas['PlaneTable'];
export type Corner = Block['outline'];

export type SideKind = 'eave' | 'gable' | 'wall';

/** What a new side is until somebody says otherwise. */
const NEW_EAVE: Edge = { eave: '8/12' };

export function newJob(name: string): Job {
  return { format: 1, name, units: 'ft', covering: { sheet: 'composite-slate' }, block: [], deck: { kind: 'plywood', thickness: '5/8 in' } };
}

export function unitOf(job: Job): Unit {
  return job.units ?? 'ft';
}

export function blocks(job: Job): Block[] {
  return job.block ?? [];
}

function withBlock(job: Job, index: number, change: (block: Block) => Block): Job {
  return { ...job, block: blocks(job).map((block, at) => (at === index ? change(block) : block)) };
}

/** A name that no block has. */
export function freeName(job: Job, word: string): string {
  const taken = new Set(blocks(job).map((block) => block.name));
  let name = word;
  for (let again = 2; taken.has(name); again += 1) name = `${word} ${again}`;
  return name;
}

export function addBlock(job: Job, outline: [Measure, Measure][], words: { house: string; wing: string }): Job {
  const name = freeName(job, blocks(job).length === 0 ? words.house : words.wing);
  const last = blocks(job).at(-1);
  const pitch = last?.edges?.find((edge) => edge.eave != null)?.eave ?? '8/12';
  const block: Block = { name, outline, eave_height: last?.eave_height ?? '9 ft', edges: outline.map(() => ({ eave: pitch })) };
  return { ...job, block: [...blocks(job), block] };
}

export function removeBlock(job: Job, index: number): Job {
  return { ...job, block: blocks(job).filter((_, at) => at !== index) };
}

export function setBlock(job: Job, index: number, change: Partial<Block>): Job {
  return withBlock(job, index, (block) => ({ ...block, ...change }));
}

export function setOutline(job: Job, index: number, outline: [Measure, Measure][]): Job {
  return withBlock(job, index, (block) => ({ ...block, outline }));
}

export function moveCorner(job: Job, index: number, corner: number, to: [Measure, Measure]): Job {
  return withBlock(job, index, (block) => ({ ...block, outline: (block.outline ?? []).map((at, n) => (n === corner ? to : at)) }));
}

/** A new corner in the middle of a side, which becomes two sides of its kind. */
export function splitSide(job: Job, index: number, side: number, middle: [Measure, Measure]): Job {
  return withBlock(job, index, (block) => ({
    ...block,
    outline: (block.outline ?? []).toSpliced(side + 1, 0, middle),
    edges: block.edges.toSpliced(side + 1, 0, { ...(block.edges[side] ?? NEW_EAVE) }),
  }));
}

/** Takes a corner out; the side that ends there goes on to the next corner. */
export function removeCorner(job: Job, index: number, corner: number): Job {
  return withBlock(job, index, (block) => ({
    ...block,
    outline: (block.outline ?? []).toSpliced(corner, 1),
    edges: block.edges.toSpliced(corner, 1),
  }));
}

export function kindOf(edge: Edge): SideKind {
  if (edge.gable) return 'gable';
  return edge.wall ? 'wall' : 'eave';
}

/** An eave takes the pitch of its neighbours; what only the old kind can have goes. */
export function setKind(job: Job, index: number, side: number, kind: SideKind): Job {
  return withBlock(job, index, (block) => {
    const pitch = block.edges.find((edge) => edge.eave != null)?.eave ?? '8/12';
    const overhang = block.edges[side]?.overhang;
    const kept = overhang == null || kind === 'wall' ? {} : { overhang };
    const edge: Edge = kind === 'eave' ? { eave: pitch, ...kept } : { [kind]: true, ...kept };
    return { ...block, edges: block.edges.map((old, at) => (at === side ? edge : old)) };
  });
}

export function setEdge(job: Job, index: number, side: number, change: Partial<Edge>): Job {
  return withBlock(job, index, (block) => ({
    ...block,
    edges: block.edges.map((edge, at) => (at === side ? cleared({ ...edge, ...change }) : edge)),
  }));
}

/** A field that was emptied is absent from the job file: unknown, not zero. */
export function cleared<T extends object>(table: T): T {
  return Object.fromEntries(Object.entries(table).filter(([, value]) => value !== undefined && value !== '')) as T;
}

/** Corners in inches; none where one of them cannot be read. */
export function cornersOf(block: Block, unit: Unit): Point[] {
  const points = (block.outline ?? []).map(([x, y]) => [inches(x ?? NaN, unit), inches(y ?? NaN, unit)]);
  return points.every(([x, y]) => x !== undefined && y !== undefined) ? (points as Point[]) : [];
}
