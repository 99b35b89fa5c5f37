import type { Signed } from '../context.ts';
import type { SeasonRange } from '../db/repositories/season.ts';
import { findSite } from '../db/repositories/site.ts';
import { refuse } from '../refusal.ts';

interface Asked extends Signed {
  readonly query: { readonly from: string; readonly to: string; readonly siteId?: string | undefined };
  own(mine: boolean): void;
  ownSite(siteId: string): void;
}

/** The days asked for and the sites that this person may add up: one, their own, or all. */
export function seasonRange(call: Asked): SeasonRange {
  const { from, to, siteId } = call.query;
  if (siteId !== undefined) {
    call.ownSite(siteId);
    if (findSite(call.store, siteId) === undefined) throw refuse('not-found');
    return { from, to, siteIds: [siteId] };
  }
  call.own(true);
  const all = call.who.role === 'coordinator' || call.who.siteIds.length === 0;
  return { from, to, siteIds: all ? null : call.who.siteIds };
}
