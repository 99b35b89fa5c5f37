/** Open places as text to be copied into a group chat; it holds no names at all. */
import type { Signed } from '../../context.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import type { ShiftRow } from '../../db/repositories/shift.ts';
import { findSite } from '../../db/repositories/site.ts';
import { refuse } from '../../refusal.ts';
import { openAhead } from '../shifts.ts';
import { dateWords, wordsFor } from '../words/languages.ts';

export function groupText(call: Signed, query: { readonly siteId?: string | undefined; readonly days: number }): string {
  const siteId = query.siteId ?? null;
  if (siteId !== null && findSite(call.store, siteId) === undefined) throw refuse('not-found');
  const rows = openAhead(call, { days: query.days, siteId });
  const programme = findProgramme(call.store);
  const name = programme?.name ?? '';
  const words = wordsFor(call.store, call.who.personId);
  const lineOf = (row: ShiftRow): string =>
    words.groupLine({
      when: words.whenWords(dateWords(words, row.localDate, programme?.locale ?? words.locale), row.localTime),
      length: words.lengthWords(row.minutes),
      free: row.places - row.taken,
    });
  if (rows.length === 0) return words.groupNothing(name, query.days);
  const sites = [...new Set(rows.map(({ siteName }) => siteName))];
  const parts = sites.map((site) => [`${site}:`, ...rows.filter((row) => row.siteName === site).map(lineOf)].join('\n'));
  const link = call.config.publicUrl === undefined ? [] : [words.groupLink(`${call.config.publicUrl}/shifts`)];
  return [words.groupHead(name, query.days), ...parts, ...link].join('\n\n');
}
