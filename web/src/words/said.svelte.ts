/** What the program says, in the language of the screen. It speaks English and has forms of its sentences in other languages. */

import { Refused, post } from '../api/client';
import type { components } from '../api/types';
import { spoken, words } from './words.svelte';

type Said = components['schemas']['Said'];
type Sort = Said['sort'];

let known: ReadonlyMap<string, string> = $state.raw(new Map());
let asked = new Map<string, Said>();

/** The sentence, or as it stands until the program has answered. */
export function said(text: string, sort: Sort = 'sentence', rule: string | null = null): string {
  if (spoken() === 'en' || text === '') return text;
  const key = `${sort} ${rule ?? ''} ${text}`;
  const form = known.get(key);
  if (form !== undefined) return form;
  if (asked.size === 0) queueMicrotask(() => void ask());
  asked.set(key, { text, sort, rule });
  return text;
}

/** Units at the end of a key, as they are written behind a comma. */
const UNITS: Record<string, string> = { sqft: 'sq ft', sqin: 'sq in', psf: 'psf', lb: 'lb', percent: '%', deg: 'degrees', mph: 'mph', oz: 'oz' };

/** A key of the job file as a label. */
export function keyed(key: string): string {
  if (spoken() !== 'en') return said(key, 'key');
  const words = key.split('_');
  const unit = words.length > 1 ? UNITS[words.at(-1) ?? ''] : undefined;
  return unit ? `${words.slice(0, -1).join(' ')}, ${unit}` : words.join(' ');
}

/** A word that stands for a value in the job file. */
export function worded(word: string): string {
  return spoken() === 'en' ? word.replaceAll('-', ' ') : said(word, 'choice');
}

/** Why something was not done: what the program refused, or that it does not answer. */
export function told(error: unknown): string {
  return error instanceof Refused ? `${said(error.says)}. ${said(error.remedy)}` : words().waitingLong;
}

async function ask(): Promise<void> {
  const [keys, says] = [[...asked.keys()], [...asked.values()]];
  asked = new Map();
  // A program that is gone for a moment is asked again with the next plan.
  const forms = await post('/api/words', { language: 'es', says }).catch(() => undefined);
  if (forms) known = new Map([...known, ...keys.map((key, at): [string, string] => [key, forms[at] ?? ''])]);
}
