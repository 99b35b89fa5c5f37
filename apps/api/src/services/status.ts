/** Whether whatever runs by itself still does, in the order in which it would hurt (criteria F31). */
import type { Status, UpkeepState } from '@middenry/contract';
import type { Context, Signed } from '../context.ts';
import { isBelievable } from '../db/clock-sense.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import { countQuietPhones, mailDueSince, phoneSkews, quietPhones } from '../db/repositories/upkeep.ts';
import { keeperIn } from './keep-shape.ts';
import type { KeeperStatus } from './keeper.ts';
import { readMailStatus } from './mail/status.ts';

const HOUR_MS = 3_600_000;
/** A changed store is copied each hour; after so many something is in the way. */
const BACKUP_LATE_HOURS = 3;
/** The store is read whole once a day. */
const SOUNDNESS_LATE_HOURS = 48;
const MAIL_LATE_HOURS = 1;
const DAY_HOURS = 24;
const QUIET_DAYS = 14;
const MOST_SHOWN = 10;
/** Below three, one wrong phone would be the middle one. */
const FEWEST_PHONES = 3;
const CLOCK_OFF_S = { look: 120, act: 1800 };

const hoursSince = (now: Date, at: string): number => (now.getTime() - Date.parse(at)) / HOUR_MS;

export function statusShape(call: Signed): Status {
  return {
    now: call.now.toISOString(),
    ...storeStatus(call),
    mail: mailPart(call),
    clock: clockPart(call),
    phones: phonesPart(call),
  };
}

/** The store and what keeps it; what coordinators are also told of by message. */
export function storeStatus(call: Context): Pick<Status, 'backup' | 'drill' | 'soundness' | 'disk'> {
  const kept = keeperIn(call).status();
  // A demonstration is made anew from its story, so nobody copies it.
  const isDemo = findProgramme(call.store)?.isDemo ?? false;
  return {
    backup: backupPart(call, kept, isDemo),
    drill: drillPart(kept, isDemo),
    soundness: soundnessPart(call),
    disk: { state: call.room?.isTight() ? 'act' : kept.diskLow ? 'look' : 'well', freeBytes: kept.freeBytes, storeBytes: kept.storeBytes },
  };
}

/** By the oldest change that is in no backup: after a quiet night the newest is old, and nothing is missing. */
function backupPart({ now }: Context, { backups, changedSince, lastFault }: KeeperStatus, isDemo: boolean): Status['backup'] {
  const newest = backups[0]?.manifest;
  const isBehind = newest === undefined || (changedSince !== null && hoursSince(now, changedSince) >= BACKUP_LATE_HOURS);
  const state = lastFault !== null ? 'act' : isDemo || !isBehind ? 'well' : newest === undefined ? 'look' : 'act';
  return { state, lastAt: newest?.madeAt ?? null, fault: lastFault };
}

function drillPart({ lastDrill, drillOverdue }: KeeperStatus, isDemo: boolean): Status['drill'] {
  const state = lastDrill?.ok === false ? 'act' : drillOverdue || (lastDrill === null && !isDemo) ? 'look' : 'well';
  return { state, lastAt: lastDrill?.at ?? null, words: lastDrill?.words ?? null };
}

function soundnessPart({ soundness, now }: Context): Status['soundness'] {
  const lastAt = soundness?.lastSoundAt() ?? null;
  const damage = soundness?.damage()?.words ?? null;
  const isLate = lastAt === null || hoursSince(now, lastAt) >= SOUNDNESS_LATE_HOURS;
  return { state: damage !== null ? 'act' : isLate ? 'look' : 'well', lastAt, damage };
}

function mailPart(call: Signed): Status['mail'] {
  const { configured, waiting, failed, lastError } = readMailStatus(call);
  const waitingSince = mailDueSince(call.store, call.now.toISOString());
  const isStuck = configured && waitingSince !== null && hoursSince(call.now, waitingSince) >= MAIL_LATE_HOURS;
  return {
    state: isStuck ? 'act' : configured && (lastError !== null || failed > 0) ? 'look' : 'well',
    ...{ configured, waiting, waitingSince, failed, lastError },
  };
}

function clockPart({ store, now }: Signed): Status['clock'] {
  const skews = phoneSkews(store, new Date(now.getTime() - DAY_HOURS * HOUR_MS).toISOString());
  const behindSeconds = skews.length < FEWEST_PHONES ? null : skews[Math.floor(skews.length / 2)]!;
  const possible = isBelievable(now);
  return { state: possible ? clockState(Math.abs(behindSeconds ?? 0)) : 'act', possible, phones: skews.length, behindSeconds };
}

const clockState = (offSeconds: number): UpkeepState =>
  offSeconds >= CLOCK_OFF_S.act ? 'act' : offSeconds >= CLOCK_OFF_S.look ? 'look' : 'well';

/** Always well: that somebody has not come by is no fault, and what waits on their phone nobody can know. */
function phonesPart({ store, now }: Signed): Status['phones'] {
  const before = new Date(now);
  before.setUTCDate(before.getUTCDate() - QUIET_DAYS);
  const span = { at: now.toISOString(), before: before.toISOString() };
  const longest = quietPhones(store, span, MOST_SHOWN);
  return { state: 'well', quiet: longest.length < MOST_SHOWN ? longest.length : countQuietPhones(store, span), longest };
}
