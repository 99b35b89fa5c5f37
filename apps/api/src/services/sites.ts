import type { SiteChange, SiteNew } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { findSite, findSiteByName, insertSite, listSites as listRows, type SiteRow, updateSite } from '../db/repositories/site.ts';
import { type Store, write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { once } from './once.ts';

export function siteOf(store: Store, id: string): SiteRow {
  const site = findSite(store, id);
  if (site === undefined) throw refuse('not-found');
  return site;
}

export const siteShape = ({ id, name, timeZone, note, minC, maxC, archived }: SiteRow) => ({
  id,
  name,
  timeZone,
  note,
  minC: minC === null ? null : [...minC],
  maxC: maxC === null ? null : [...maxC],
  archived,
});

export const listSites = (context: Context) => ({ items: listRows(context.store).map(siteShape) });

export function addSite(context: Signed, body: z.output<typeof SiteNew>) {
  return once(context, 'addSite', body, {
    make: () => {
      checkSite(context.store, body, null);
      insertSite(context.store, body, context.now.toISOString());
      context.audit('site-added', body.id);
      return siteShape(siteOf(context.store, body.id));
    },
    find: () => siteShape(siteOf(context.store, body.id)),
  });
}

export function changeSite(context: Signed, id: string, body: z.output<typeof SiteChange>) {
  return write(context.store, () => {
    const before = siteOf(context.store, id);
    checkSite(context.store, { ...before, ...body }, id);
    updateSite(context.store, id, body);
    context.audit('site-changed', id, { fields: Object.keys(body) });
    return siteShape(siteOf(context.store, id));
  });
}

type SiteFacts = Pick<SiteRow, 'name' | 'timeZone' | 'minC' | 'maxC'>;

function checkSite(store: Store, site: SiteFacts, ownId: string | null): void {
  const sameName = findSiteByName(store, site.name);
  if (sameName !== undefined && sameName.id !== ownId) throw refuse('name-taken');
  if (!isTimeZone(site.timeZone)) throw refuseField('/timeZone', 'must be a time zone like Europe/London');
  const { minC, maxC } = site;
  if ((minC === null) !== (maxC === null)) throw refuseField('/maxC', 'must be given together with the minima');
  const wrong = minC?.findIndex((low, month) => low > maxC![month]!) ?? -1;
  if (wrong >= 0) throw refuseField(`/maxC/${wrong}`, 'must not be below the minimum of the same month');
}

export function isTimeZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}
