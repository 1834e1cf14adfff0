import { keyed } from '../words/said.svelte';
import type { Field } from './schema';

export function labelOf(field: Field): string {
  return field.label ?? keyed(field.key);
}
