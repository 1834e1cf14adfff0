import { type Words, en } from './en';
import { es } from './es';

const KEY = 'language';
const ALL = { en, es };
/** Both as they are spoken and written where roofs are measured in feet: thousands with a comma, decimals with a point. */
const PLACE = { en: 'en-US', es: 'es-US' };
export type Language = keyof typeof ALL;

function first(): Language {
  const kept = localStorage.getItem(KEY);
  if (kept === 'en' || kept === 'es') return kept;
  return navigator.language.startsWith('es') ? 'es' : 'en';
}

let language: Language = $state(first());
document.documentElement.lang = PLACE[language];

/** The words of the language that is chosen. */
export function words(): Words {
  return ALL[language];
}

/** Which language that is. */
export function spoken(): Language {
  return language;
}

export function turnLanguage(): void {
  language = language === 'en' ? 'es' : 'en';
  document.documentElement.lang = PLACE[language];
  localStorage.setItem(KEY, language);
}
