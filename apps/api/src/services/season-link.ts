/** The totals of a season for a spreadsheet that asks by a secret address (criteria C16). */
import type { Context } from '../context.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import type { Store } from '../db/store.ts';
import { Refusal, refuseField } from '../refusal.ts';
import type { CsvProfile } from './csv.ts';
import { openLink } from './links.ts';
import { type RateKeeper, rateKeeper, refuseOften } from './rate.ts';
import { seasonCsv } from './season-csv.ts';

interface Asked {
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  readonly profile: CsvProfile;
}

const HOUR_MS = 3_600_000;
/** A spreadsheet asks once an hour or whenever it is opened. */
const READS_AN_HOUR = 60;
/** Wrong addresses from one place. */
const MISSES_AN_HOUR = 60;

const desks = new WeakMap<Store, { readonly ofLink: RateKeeper; readonly ofStranger: RateKeeper }>();
function deskOf(store: Store) {
  const desk = desks.get(store) ?? {
    ofLink: rateKeeper({ most: READS_AN_HOUR, perMs: HOUR_MS }),
    ofStranger: rateKeeper({ most: MISSES_AN_HOUR, perMs: HOUR_MS }),
  };
  desks.set(store, desk);
  return desk;
}

/** The CSV of a link; one that was revoked looks as if it had never been. */
export function readSeasonLink(call: Context, token: string, place: string, { from, to, profile }: Asked): string {
  const desk = deskOf(call.store);
  const link = openedOrCounted(call, token, () => refuseOften(desk.ofStranger, place, call.now));
  refuseOften(desk.ofLink, link.id, call.now);
  const today = call.today(findProgramme(call.store)?.timeZone ?? 'UTC');
  const until = to ?? today;
  const range = { from: from ?? `${until.slice(0, 4)}-01-01`, to: until, siteIds: link.siteId === null ? null : [link.siteId] };
  if (range.from > range.to) throw refuseField('/from', 'from must not be after to');
  return seasonCsv(call, range, profile);
}

function openedOrCounted(call: Context, token: string, count: () => void) {
  try {
    return openLink(call, token, 'season');
  } catch (error) {
    if (error instanceof Refusal) count();
    throw error;
  }
}
