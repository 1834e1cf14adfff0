/** The tables of the job file as their own description tells them: keys, words, what may stand there. */

import { get } from '../api/client';

export interface Field {
  key: string;
  /** In place of the key's own. */
  label?: string;
  says: string;
  /** One value; a list of values; a table; a list of tables. */
  kind: 'text' | 'number' | 'yes-no' | 'word' | 'values' | 'group' | 'rows';
  /** The table cannot do without it. */
  isNeeded: boolean;
  /** Of a word: what it may be. */
  options: string[];
  /** Of a table, or of each table of a list. */
  inner: Field[];
}

interface Schema {
  $ref?: string;
  anyOf?: Schema[];
  oneOf?: Schema[];
  type?: string | string[];
  enum?: unknown[];
  const?: unknown;
  description?: string;
  properties?: Record<string, Schema>;
  required?: string[];
  items?: Schema;
}

/** Tables that a person fills in on the screen Choose, by their key in the job file. */
export const TABLES = {
  setting_out: 'SettingOutTable', deck: 'DeckTable', fastener: 'FastenerTable', site: 'SiteTable', laying: 'LayingTable', dry_in: 'DryInTable',
  metal: 'MetalTable', flashing: 'FlashingTable', attic: 'AtticTable', order: 'OrderTable', stage: 'StageTable',
} as const;
export type TableKey = keyof typeof TABLES;

let known: Promise<Record<string, Schema>> | undefined;

function schemas(): Promise<Record<string, Schema>> {
  known ??= (get('/api/openapi.json') as Promise<unknown>).then((document) => (document as { components: { schemas: Record<string, Schema> } }).components.schemas);
  return known;
}

/** Every field of a table, down to the last. */
export async function fieldsOf(table: string): Promise<Field[]> {
  const all = await schemas();
  return inside(all[table] ?? {}, all);
}

/** A description has its keys by the alphabet; a person wants first what a thing is, and where its figures come from last. */
const FIRST = ['name', 'task', 'what', 'when', 'line', 'sheet', 'of', 'kind', 'material', 'rule', 'from_pitch', 'to_pitch', 'eave', 'left_rake', 'right_rake', 'top', 'diagonal_left', 'diagonal_right'];
const LAST = ['source'];
const rank = (key: string) => (LAST.includes(key) ? FIRST.length + 1 : FIRST.includes(key) ? FIRST.indexOf(key) : FIRST.length);

function inside(table: Schema, all: Record<string, Schema>): Field[] {
  const properties = Object.entries(table.properties ?? {}).sort(([a], [b]) => rank(a) - rank(b));
  return properties.flatMap(([key, schema]) => field(key, schema, all, (table.required ?? []).includes(key)) ?? []);
}

function field(key: string, schema: Schema, all: Record<string, Schema>, isNeeded: boolean): Field | undefined {
  const one = resolved(schema, all);
  const base = { key, says: (schema.description ?? '').replaceAll(/\s+/g, ' '), isNeeded, options: [], inner: [] };
  const options = optionsOf(one);
  if (options.length > 0) return { ...base, kind: 'word', options };
  const types = [one.type ?? []].flat().filter((type) => type !== 'null');
  // A word for the whole roof, or a list of planes: the list is typed in the job file.
  if (types.includes('boolean')) return { ...base, kind: 'yes-no' };
  if (types.includes('array')) {
    const inner = inside(resolved(one.items ?? {}, all), all);
    return { ...base, kind: inner.length > 0 ? 'rows' : 'values', inner };
  }
  if (one.properties) return { ...base, kind: 'group', inner: inside(one, all) };
  if (types.includes('string')) return { ...base, kind: 'text' };
  return types.some((type) => type === 'number' || type === 'integer') ? { ...base, kind: 'number' } : undefined;
}

/** What a reference, or the one choice beside null, leads to. */
function resolved(schema: Schema, all: Record<string, Schema>): Schema {
  const choice = (schema.anyOf ?? []).filter((one) => one.type !== 'null');
  if (choice.length === 1 && choice[0]) return resolved(choice[0], all);
  const name = schema.$ref?.split('/').at(-1);
  return name ? resolved(all[name] ?? {}, all) : schema;
}

function optionsOf(schema: Schema): string[] {
  const own = schema.enum ?? (schema.oneOf ?? []).flatMap((one) => one.enum ?? one.const ?? []);
  return own.filter((option): option is string => typeof option === 'string');
}

export function isSingle({ kind }: Field): boolean {
  return kind !== 'values' && kind !== 'group' && kind !== 'rows';
}

/** What stands in the job for a field that was filled in; nothing for one that was emptied. */
export function value(field: Field, text: string): string | number | boolean | string[] | undefined {
  const typed = text.trim();
  if (typed === '') return undefined;
  if (field.kind === 'values') return typed.split('\n').map((line) => line.trim()).filter((line) => line !== '');
  if (field.kind === 'yes-no') return typed === 'true';
  if (field.kind === 'number' && Number.isFinite(Number(typed))) return Number(typed);
  return typed;
}

/** How a value of the job stands in its field. */
export function shownAs(value: unknown): string {
  if (Array.isArray(value)) return value.join('\n');
  return value === undefined || value === null || typeof value === 'object' ? '' : String(value);
}
