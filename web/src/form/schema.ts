/** The tables of the job file as their own description tells them: keys, words, what may stand there. */

import { get } from '../api/client';

export interface Field {
  key: string;
  label: string;
  says: string;
  kind: 'text' | 'number' | 'yes-no' | 'word';
  /** Of a word: what it may be. */
  options: string[];
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
}

/** Tables that a person fills in on the screen Choose, by their key in the job file. */
export const TABLES = { setting_out: 'SettingOutTable', deck: 'DeckTable', fastener: 'FastenerTable', site: 'SiteTable', laying: 'LayingTable', dry_in: 'DryInTable', attic: 'AtticTable', order: 'OrderTable' } as const;
export type TableKey = keyof typeof TABLES;

let known: Promise<Record<string, Schema>> | undefined;

function schemas(): Promise<Record<string, Schema>> {
  known ??= (get('/api/openapi.json') as Promise<unknown>).then((document) => (document as { components: { schemas: Record<string, Schema> } }).components.schemas);
  return known;
}

/** Fields of a table that hold one value; lists and tables within it are edited in the job file. */
export async function fieldsOf(table: (typeof TABLES)[TableKey] | 'DormerTable' | 'OpeningTable'): Promise<Field[]> {
  const all = await schemas();
  const properties = all[table]?.properties ?? {};
  return Object.entries(properties).flatMap(([key, schema]) => field(key, schema, all) ?? []);
}

function field(key: string, schema: Schema, all: Record<string, Schema>): Field | undefined {
  const inner = resolved(schema, all);
  const says = schema.description ?? '';
  const base = { key, label: key.replaceAll('_', ' '), says, options: [] };
  const options = optionsOf(inner);
  if (options.length > 0) return { ...base, kind: 'word', options };
  const types = [inner.type ?? []].flat().filter((type) => type !== 'null');
  if (types.includes('array') || types.includes('object') || inner.properties) return types.includes('boolean') ? { ...base, kind: 'yes-no' } : undefined;
  if (types.includes('boolean')) return { ...base, kind: 'yes-no' };
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

/** What stands in the job for a field that was filled in; nothing for one that was emptied. */
export function value(field: Field, text: string): string | number | boolean | undefined {
  const typed = text.trim();
  if (typed === '') return undefined;
  if (field.kind === 'yes-no') return typed === 'true';
  if (field.kind === 'number' && Number.isFinite(Number(typed))) return Number(typed);
  return typed;
}
