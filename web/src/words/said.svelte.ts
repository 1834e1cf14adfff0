/** What the plan says, in the language of the screen. The planner speaks English; the program has forms of its sentences. */

import { post } from '../api/client';
import { spoken } from './words.svelte';

interface Said {
  text: string;
  rule: string | null;
  remedy: boolean;
}

let known: ReadonlyMap<string, string> = $state.raw(new Map());
let asked = new Map<string, Said>();

/** The sentence, or as it stands until the program has answered. */
export function said(text: string, rule: string | null = null, remedy = false): string {
  if (spoken() === 'en' || text === '') return text;
  const key = `${rule ?? ''} ${remedy} ${text}`;
  const form = known.get(key);
  if (form !== undefined) return form;
  if (asked.size === 0) queueMicrotask(() => void ask());
  asked.set(key, { text, rule, remedy });
  return text;
}

async function ask(): Promise<void> {
  const [keys, says] = [[...asked.keys()], [...asked.values()]];
  asked = new Map();
  // A program that is gone for a moment is asked again with the next plan.
  const forms = await post('/api/words', { language: 'es', says }).catch(() => undefined);
  if (forms) known = new Map([...known, ...keys.map((key, at): [string, string] => [key, forms[at] ?? ''])]);
}
