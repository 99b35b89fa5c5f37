import { error } from '@sveltejs/kit';
import { call, need } from '$lib/api/call.ts';
import { farAddressOf } from '$lib/api/far-address.ts';
import { readConsentWords } from '$lib/consents/words.ts';
import { readDay } from '$lib/format/typed-day.ts';
import { defaultRange } from '$lib/season/default-range.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, parent, url }) => {
  const { session, person } = await parent();
  if (person.role !== 'coordinator' && person.role !== 'site-lead')
    return {
      season: null,
      photos: null,
      consentWords: null,
      seasons: [],
      published: [],
      texts: {},
      refused: null,
      sites: [],
      siteId: '',
      csv: '',
      reportCsv: '',
      xlsx: '',
      pdf: '',
      json: '',
      done: null,
    };
  const usual = defaultRange(session.today);
  const asked = (name: 'from' | 'to') => {
    const typed = url.searchParams.get(name);
    return typed === null ? usual[name] : (readDay(typed, '9999-12-31') ?? usual[name]);
  };
  const siteId = url.searchParams.get('siteId') ?? '';
  const query = { from: asked('from'), to: asked('to'), ...(siteId === '' ? {} : { siteId }) };
  const [outcome, sites, seasons, published] = await Promise.all([
    call(fetch, 'readSeason', { query }),
    need(fetch, 'listSites'),
    need(fetch, 'listSeasons'),
    need(fetch, 'listPublishedSeasons'),
  ]);
  if (!outcome.ok && outcome.problem.code !== 'invalid')
    error(outcome.problem.status, { message: outcome.problem.code, code: outcome.problem.code, requestId: outcome.problem.requestId });
  // Days the wrong way round: say so, and show the usual season.
  const season = outcome.ok ? outcome.data : await need(fetch, 'readSeason', { query: usual });
  const shown = { from: season.from, to: season.to, ...(siteId === '' ? {} : { siteId }) };
  const named = seasons.items.find((one) => one.from === season.from && one.to === season.to && (one.siteId ?? '') === siteId);
  return {
    photos: named === undefined ? null : await need(fetch, 'readSeasonPhotos', { params: { id: named.id } }),
    consentWords: await readConsentWords(),
    texts: named?.texts ?? {},
    published: published.items,
    ...{ season, seasons: seasons.items, refused: !outcome.ok, siteId },
    sites: sites.items.filter((s) => !s.archived),
    csv: farAddressOf('readSeasonCsv', {}, shown),
    reportCsv: farAddressOf('readSeasonReportCsv', {}, shown),
    pdf: farAddressOf('readSeasonPdf', {}, shown),
    xlsx: farAddressOf('readSeasonXlsx', {}, shown),
    json: farAddressOf('readSeason', {}, shown),
    done: url.searchParams.get('done'),
  };
};
