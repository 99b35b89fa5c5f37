/** Reports to print: of the log as it stands, and of a published season as it stood. */
import type { SeasonPdfLanguage, SeasonTexts } from '@middenry/contract';
import type { Context } from '../../context.ts';
import { namedSeasons } from '../../db/repositories/named-season.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import type { SeasonRange } from '../../db/repositories/season.ts';
import { listSites } from '../../db/repositories/site.ts';
import { localDateAt } from '../local-time.ts';
import type { AskedOwn } from '../named-seasons.ts';
import { readPublishedSeason } from '../published-seasons.ts';
import { readSeason } from '../season.ts';
import { type ReportAsked, seasonPdf } from './season-pdf.ts';

/** Says of a kept season of the same days what its coordinator says. */
export function livePdf(call: Context, range: SeasonRange, language: SeasonPdfLanguage): Promise<Buffer> {
  const siteId = range.siteIds?.length === 1 ? range.siteIds[0]! : null;
  const kept = namedSeasons(call.store, range.siteIds).find(
    (one) => one.from === range.from && one.to === range.to && one.siteId === siteId,
  );
  const sites = listSites(call.store).filter(({ id }) => range.siteIds?.includes(id));
  const { name, ...how } = waysOf(call, language);
  return seasonPdf({
    ...how,
    season: readSeason({ ...call, language }, range),
    texts: kept === undefined ? {} : (JSON.parse(kept.texts) as SeasonTexts),
    where: sites.length === 0 ? name : sites.map((site) => site.name).join(', '),
  });
}

export function publishedPdf(call: AskedOwn, id: string, language: SeasonPdfLanguage): Promise<Buffer> {
  const { season, texts, name, siteName, publishedAt } = readPublishedSeason({ ...call, language }, id);
  const { name: programme, timeZone, ...how } = waysOf(call, language);
  const published = { name, on: localDateAt(new Date(publishedAt), timeZone) };
  return seasonPdf({ ...how, season, texts, where: siteName ?? programme, published });
}

type Ways = Pick<ReportAsked, 'language' | 'units' | 'locale' | 'madeAt'>;

function waysOf(call: Context, language: SeasonPdfLanguage): Ways & { readonly name: string; readonly timeZone: string } {
  const { name = '', units = 'metric', locale = 'en-GB', timeZone = 'UTC' } = findProgramme(call.store) ?? {};
  return { name, units, locale, timeZone, language, madeAt: call.now };
}
