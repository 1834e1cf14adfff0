import { type Words, en } from './en';

/** The words of the language that is chosen. */
export function words(): Words {
  return en;
}
