/** Asks the program. A refusal is thrown with its words; a program that is gone is told apart, for then nothing is lost by waiting. */

import type { components, paths } from './types';

type Schemas = components['schemas'];
export type JobLine = Schemas['JobLine'];
export type KeptJob = Schemas['Job'];
export type Plan = Schemas['Plan'];
export type Planned = Schemas['Planned'];
export type Raised = Schemas['Raised'];
export type Roof = Schemas['Roof'];
export type Problem = Schemas['Problem'];
export type Mistake = Schemas['Mistake'];
export type Example = Schemas['Example'];
export type Prices = Schemas['Prices'];
export type Priced = Schemas['Priced'];
export type RatesUsed = Schemas['RatesUsed'];
export type RevisionLine = Schemas['RevisionLine'];

export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly says: string,
    readonly remedy: string,
    readonly body: unknown,
  ) {
    super(`${says}. ${remedy}`);
  }
}

/** Nobody answers: the program was closed or killed. */
export class Gone extends Error {}

type Sent<P extends keyof paths, M extends 'post' | 'put'> = paths[P] extends {
  [K in M]: { requestBody: { content: { 'application/json': infer Body } } };
}
  ? Body
  : never;
type Answer<P extends keyof paths, M extends 'get' | 'post' | 'put'> = paths[P] extends {
  [K in M]: { responses: { 200: { content: { 'application/json': infer Body } } } };
}
  ? Body
  : never;
type At = Record<string, string | number>;

export function get<P extends keyof paths>(path: P, at: At = {}, signal?: AbortSignal, query = ''): Promise<Answer<P, 'get'>> {
  return send('GET', filled(path, at) + query, undefined, signal);
}

export function post<P extends keyof paths>(path: P, body: Sent<P, 'post'>, at: At = {}, signal?: AbortSignal): Promise<Answer<P, 'post'>> {
  return send('POST', filled(path, at), body, signal);
}

export function put<P extends keyof paths>(path: P, body: Sent<P, 'put'>, at: At = {}): Promise<Answer<P, 'put'>> {
  return send('PUT', filled(path, at), body);
}

/** Sends a file as it is. */
export async function importFile(file: File, units: string, layer: string): Promise<Schemas['Found']> {
  const query = new URLSearchParams({ name: file.name });
  if (units) query.set('units', units);
  if (layer) query.set('layer', layer);
  const request = { method: 'POST', body: file, headers: { 'content-type': 'application/octet-stream' } };
  return read(await reach(`/api/import?${query}`, request));
}

/** Fetches a file and hands it to the browser, to be saved under the name that the program gives it. */
export async function take(path: string, signal: AbortSignal): Promise<void> {
  const answer = await reach(path, { signal });
  if (!answer.ok) await read(answer);
  const [, name] = /filename="([^"]+)"/.exec(answer.headers.get('content-disposition') ?? '') ?? [];
  const link = document.createElement('a');
  link.href = URL.createObjectURL(await answer.blob());
  link.download = name ?? '';
  link.click();
  URL.revokeObjectURL(link.href);
}

/** `/api/jobs/{id}` with its number in it. */
export function filled(path: string, at: At): string {
  return path.replaceAll(/\{(\w+)\}/g, (_, name: string) => encodeURIComponent(String(at[name] ?? '')));
}

async function send<T>(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<T> {
  const more = body === undefined ? {} : { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } };
  return read(await reach(path, { method, ...more, ...(signal ? { signal } : {}) }));
}

async function reach(path: string, request: RequestInit): Promise<Response> {
  try {
    return await fetch(path, request);
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new Gone();
  }
}

async function read<T>(answer: Response): Promise<T> {
  const body: unknown = await answer.json().catch(() => ({}));
  if (answer.ok) return body as T;
  const { says, remedy } = body as { says?: string; remedy?: string };
  throw new Refused(answer.status, says ?? answer.statusText, remedy ?? '', body);
}
