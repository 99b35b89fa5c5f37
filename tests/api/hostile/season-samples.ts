import type { RouteName } from '@middenry/contract';
import { insertLink } from '../../../apps/api/src/db/repositories/link.ts';
import { hashOf } from '../../../apps/api/src/services/secret.ts';
import { freshId, PEOPLE, SITES } from '../../cast.ts';
import { changed, type Make } from './sample.ts';
import { namedSeason, type Stage } from './stage.ts';

const season = '?from=2026-01-01&to=2026-12-31';

export const seasonSamples = {
  readSeason: () => ({
    who: 'siteLead',
    url: `/api/season${season}&siteId=${SITES.meadow}`,
    notTheirs: [{ who: 'siteLead', url: `/api/season${season}&siteId=${SITES.school}` }],
  }),
  readSeasonCsv: () => ({
    who: 'siteLead',
    url: `/api/season.csv${season}&siteId=${SITES.meadow}`,
    notTheirs: [{ who: 'siteLead', url: `/api/season.csv${season}&siteId=${SITES.school}` }],
  }),
  readSeasonXlsx: () => ({
    who: 'siteLead',
    url: `/api/season.xlsx${season}&siteId=${SITES.meadow}`,
    notTheirs: [{ who: 'siteLead', url: `/api/season.xlsx${season}&siteId=${SITES.school}` }],
  }),
  readSeasonPdf: () => ({
    who: 'siteLead',
    url: `/api/season.pdf${season}&siteId=${SITES.meadow}`,
    notTheirs: [{ who: 'siteLead', url: `/api/season.pdf${season}&siteId=${SITES.school}` }],
  }),
  readSeasonWeeks: () => ({
    who: 'siteLead',
    url: `/api/season-weeks${season}&siteId=${SITES.meadow}`,
    notTheirs: [{ who: 'siteLead', url: `/api/season-weeks${season}&siteId=${SITES.school}` }],
  }),
  readSeasonLink: () => {
    const file = 'a-token-of-a-season-that-is-there.csv';
    const row = { id: freshId(), kind: 'season', siteId: null, label: '', createdAt: '2026-11-25T10:00:00.000Z' } as const;
    const ready = ({ cast }: Stage) => insertLink(cast.store, { ...row, tokenHash: hashOf(file.slice(0, -4)), createdBy: PEOPLE.owner.id });
    return { who: null, url: `/season-link/${file}`, params: { file }, ready };
  },
  readSeasonSchema: () => ({ who: null, url: '/api/season.schema.json' }),
  listSeasons: () => ({ who: 'siteLead', url: '/api/seasons' }),
  addSeason: () => {
    const body = { ...namedSeason(freshId(), SITES.meadow), name: 'Winter' };
    const url = '/api/seasons';
    return {
      who: 'siteLead',
      url,
      body,
      notTheirs: [SITES.school, null].map((siteId) => ({ who: 'siteLead', url, body: { ...body, siteId } })),
      also: changed(body, { 'a name that is taken': { name: 'Autumn' }, 'days that run backwards': { to: '2026-08-31' } }),
    };
  },
  changeSeason: ({ namedSeasonId, schoolNamedSeasonId }) => {
    const body = { name: 'Harvest', from: '2026-08-15', to: '2026-11-15' };
    return {
      who: 'siteLead',
      url: `/api/seasons/${namedSeasonId}`,
      params: { id: namedSeasonId },
      body,
      headers: { 'if-match': '"1"' },
      notTheirs: [{ who: 'siteLead', url: `/api/seasons/${schoolNamedSeasonId}`, body, headers: { 'if-match': '"1"' } }],
      also: changed(body, { 'days that run backwards': { to: '2026-08-01' } }),
    };
  },
  removeSeason: ({ namedSeasonId, schoolNamedSeasonId }) => ({
    who: 'siteLead',
    url: `/api/seasons/${namedSeasonId}`,
    params: { id: namedSeasonId },
    notTheirs: [{ who: 'siteLead', url: `/api/seasons/${schoolNamedSeasonId}` }],
  }),
  listPublishedSeasons: () => ({ who: 'siteLead', url: '/api/published-seasons' }),
  publishSeason: () => {
    const body = namedSeason(freshId(), SITES.meadow);
    const url = '/api/published-seasons';
    return {
      who: 'siteLead',
      url,
      body,
      notTheirs: [SITES.school, null].map((siteId) => ({ who: 'siteLead', url, body: { ...body, siteId } })),
      also: changed(body, { 'days that run backwards': { to: '2026-08-31' } }),
    };
  },
  readPublishedSeason: ({ publishedSeasonId, schoolPublishedSeasonId }) => ({
    who: 'siteLead',
    url: `/api/published-seasons/${publishedSeasonId}`,
    params: { id: publishedSeasonId },
    notTheirs: [{ who: 'siteLead', url: `/api/published-seasons/${schoolPublishedSeasonId}` }],
  }),
  readPublishedSeasonPdf: ({ publishedSeasonId, schoolPublishedSeasonId }) => ({
    who: 'siteLead',
    url: `/api/published-seasons/${publishedSeasonId}/report.pdf`,
    params: { id: publishedSeasonId },
    notTheirs: [{ who: 'siteLead', url: `/api/published-seasons/${schoolPublishedSeasonId}/report.pdf` }],
  }),
  readPublishedSeasonCsv: ({ publishedSeasonId, schoolPublishedSeasonId }) => ({
    who: 'siteLead',
    url: `/api/published-seasons/${publishedSeasonId}/report.csv`,
    params: { id: publishedSeasonId },
    notTheirs: [{ who: 'siteLead', url: `/api/published-seasons/${schoolPublishedSeasonId}/report.csv` }],
  }),
  readPublishedSeasonXlsx: ({ publishedSeasonId, schoolPublishedSeasonId }) => ({
    who: 'siteLead',
    url: `/api/published-seasons/${publishedSeasonId}/report.xlsx`,
    params: { id: publishedSeasonId },
    notTheirs: [{ who: 'siteLead', url: `/api/published-seasons/${schoolPublishedSeasonId}/report.xlsx` }],
  }),
  readSeasonReportCsv: () => ({
    who: 'siteLead',
    url: `/api/season-report.csv${season}&siteId=${SITES.meadow}`,
    notTheirs: [{ who: 'siteLead', url: `/api/season-report.csv${season}&siteId=${SITES.school}` }],
  }),
  readClimateFactors: () => ({ who: 'siteLead', url: '/api/climate-factors' }),
  confirmClimateFactors: () => {
    const rising = { low: 10, mid: 20, high: 30 };
    const from = { name: 'Set', edition: '2026', region: 'Here', basis: '100 years', source: 'A table' };
    const body = { ...from, landfillPercent: 60, landfill: rising, process: rising, confirmed: true };
    const also = changed(body, {
      'nobody looked': { confirmed: false },
      'a range that falls': { landfill: { low: 3, mid: 2, high: 1 } },
      'no share': { landfillPercent: 0 },
    });
    return { who: 'coordinator', url: '/api/climate-factors', body, also };
  },
  removeClimateFactors: () => ({ who: 'coordinator', url: '/api/climate-factors' }),
} satisfies Partial<Record<RouteName, Make>>;
