/** Seasons by name: of a site, kept by its lead, or of the whole programme, kept by whoever sees to all of it. */
import type { NamedSeason, NamedSeasonChange, NamedSeasonNew, SeasonTexts } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import {
  deleteNamedSeason,
  insertNamedSeason,
  type NamedSeasonRow,
  namedSeasonById,
  namedSeasons,
  seasonNameTaken,
  updateNamedSeason,
} from '../db/repositories/named-season.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { once } from './once.ts';
import { siteOf } from './sites.ts';

export interface AskedOwn extends Signed {
  own(mine: boolean): void;
  ownSite(siteId: string): void;
}

export function listSeasons(call: Signed): NamedSeason[] {
  const all = call.who.role === 'coordinator' || call.who.siteIds.length === 0;
  return namedSeasons(call.store, all ? null : call.who.siteIds).map(shapeOf);
}

export function addSeason(call: AskedOwn, body: z.output<typeof NamedSeasonNew>): NamedSeason {
  ownSeason(call, body.siteId);
  const find = () => seasonOrRefuse(call, body.id);
  const make = () => {
    if (body.siteId !== null) siteOf(call.store, body.siteId);
    if (seasonNameTaken(call.store, body)) throw refuse('name-taken');
    insertNamedSeason(call.store, { ...body, createdAt: call.now.toISOString() });
    return find();
  };
  return once(call, 'addSeason', body, { make, find });
}

/** Two people who write at once: whoever comes second is told, with both versions. */
export const changeSeason = (call: AskedOwn, id: string, revision: number, body: z.output<typeof NamedSeasonChange>): NamedSeason =>
  write(call.store, () => {
    const season = seasonOrRefuse(call, id);
    const { siteId, texts } = season;
    ownSeason(call, siteId);
    if (season.revision !== revision) throw refuse('changed-meanwhile', { help: { theirs: season, yours: body } });
    if (seasonNameTaken(call.store, { id, siteId, name: body.name })) throw refuse('name-taken');
    updateNamedSeason(call.store, { id, ...body, texts: JSON.stringify(body.texts === undefined ? texts : textsKept(body.texts)) });
    return seasonOrRefuse(call, id);
  });

export const removeSeason = (call: AskedOwn, id: string): void =>
  write(call.store, () => {
    ownSeason(call, seasonOrRefuse(call, id).siteId);
    deleteNamedSeason(call.store, id);
    call.audit('season.removed', id);
  });

/** What counts for every site is for those who lead every site. */
export function ownSeason(call: AskedOwn, siteId: string | null): void {
  if (siteId === null) call.own(call.who.siteIds.length === 0);
  else call.ownSite(siteId);
}

function seasonOrRefuse(call: AskedOwn, id: string): NamedSeason {
  const row = namedSeasonById(call.store, id);
  if (row === null) throw refuse('not-found');
  return shapeOf(row);
}

const shapeOf = (row: NamedSeasonRow): NamedSeason => ({ ...row, texts: JSON.parse(row.texts) as SeasonTexts });

/** A section whose paragraph was emptied has none. */
export const textsKept = (texts: SeasonTexts): SeasonTexts => Object.fromEntries(Object.entries(texts).filter(([, text]) => text !== ''));
