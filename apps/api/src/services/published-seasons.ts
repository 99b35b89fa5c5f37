/** Published reports keep their numbers; what is corrected afterwards is told beside them (criteria D14). */
import {
  filledSeason,
  type PublishedSeason,
  type PublishedSeasonHead,
  type PublishedSeasonNew,
  type SeasonTexts,
} from '@middenry/contract';
import { seasonChanges } from '@middenry/domain';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import { insertPublishedSeason, publishedSeasonById, publishedSeasons } from '../db/repositories/published-season.ts';
import { publishSeasonPhotos } from '../db/repositories/season-photo.ts';
import { refuse } from '../refusal.ts';
import { catalogueName } from './materials.ts';
import { type AskedOwn, ownSeason, textsKept } from './named-seasons.ts';
import { once } from './once.ts';
import { readSeason } from './season.ts';
import { siteOf } from './sites.ts';

export const listPublishedSeasons = ({ store, who }: Signed): z.output<typeof PublishedSeasonHead>[] =>
  publishedSeasons(store, who.role === 'coordinator' || who.siteIds.length === 0 ? null : who.siteIds);

export function publishSeason(call: AskedOwn, body: z.output<typeof PublishedSeasonNew>): PublishedSeason {
  ownSeason(call, body.siteId);
  const make = () => {
    if (body.siteId !== null) siteOf(call.store, body.siteId);
    const season = readSeason(call, rangeOf(body));
    const frozen = { body: JSON.stringify(season), texts: JSON.stringify(textsKept(body.texts)) };
    insertPublishedSeason(call.store, { ...body, ...frozen, publishedAt: call.now.toISOString() });
    publishSeasonPhotos(call.store, body);
    call.audit('season.published', body.id, { from: body.from, to: body.to, siteId: body.siteId });
    return shapeOf(call, body.id);
  };
  return once(call, 'publishSeason', body, { make, find: () => shapeOf(call, body.id) });
}

export const readPublishedSeason = (call: AskedOwn, id: string): PublishedSeason => shapeOf(call, id, (siteId) => ownSeason(call, siteId));

function shapeOf(call: Signed, id: string, own: (siteId: string | null) => void = () => undefined): PublishedSeason {
  const row = publishedSeasonById(call.store, id);
  if (row === null) throw refuse('not-found');
  own(row.siteId);
  const { body, texts, ...head } = row;
  // One that was published by an older release lacks what is counted only since then.
  const season = filledSeason(JSON.parse(body));
  return {
    ...head,
    season: {
      ...season,
      byMaterial: season.byMaterial.map((row) => ({ ...row, label: catalogueName(row.key, call.language) ?? row.label })),
    },
    texts: JSON.parse(texts) as SeasonTexts,
    changed: [...seasonChanges(season.total, readSeason(call, rangeOf(row)).total)],
  };
}

const rangeOf = ({ from, to, siteId }: { readonly from: string; readonly to: string; readonly siteId: string | null }) => ({
  ...{ from, to },
  siteIds: siteId === null ? null : [siteId],
});
