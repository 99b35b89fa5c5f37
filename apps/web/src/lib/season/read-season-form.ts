import { text } from '../errors/act.ts';
import { readDay } from '../format/typed-day.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';
import { SEASON_PARTS } from './parts.ts';
import type { SeasonTexts } from './types.ts';

const LAST_DAY = '9999-12-31';

/** The form of a named season: its name, its days and a paragraph for each section. */
export function readSeasonForm(form: FormData): {
  body: { name: string; from: string; to: string; texts: SeasonTexts };
  faults: FieldFault[];
} {
  const name = text(form, 'name');
  const from = readDay(text(form, 'from'), LAST_DAY) ?? '';
  const to = readDay(text(form, 'to'), LAST_DAY) ?? '';
  const faults: FieldFault[] = [];
  if (name === '') faults.push({ field: 'name', text: words.report.needName });
  if (from === '' || to === '' || from > to) faults.push({ field: 'from', text: words.season.needDays });
  // Browsers send line ends as two signs; the empty line between paragraphs is of one.
  const texts = Object.fromEntries(SEASON_PARTS.map((part) => [part, text(form, `text-${part}`).replaceAll('\r\n', '\n')]));
  return { body: { name, from, to, texts }, faults };
}
