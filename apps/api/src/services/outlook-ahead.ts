/** Outlooks are worked out as soon as a bin's log has changed, so that whoever looks next finds them there (criteria F27). */
import { setImmediate, setTimeout as sleep } from 'node:timers/promises';
import type { Clock, Context } from '../context.ts';
import { type BinRow, findBin, listBins } from '../db/repositories/bin.ts';
import { lastChangeId } from '../db/repositories/change.ts';
import { hasNotedSince } from '../db/repositories/outlook.ts';
import type { Store } from '../db/store.ts';
import { localDateAt } from './local-time.ts';
import { type Briefed, briefing, olderFor, outlookFor } from './outlook-cache.ts';
import { touchedAfter, touchOf } from './touched.ts';

/** A reader of the board waits for a new outlook so long, then gets the one from before with its mark. */
export const PATIENCE_MS = 60;
/** A reader of the board waits so long for bins that nothing is known of yet today, then gets it without them: well within what a request may take. */
export const FIRST_PATIENCE_MS = 6000;
/** No older one is told for longer than this after the change that it does not have. */
const OLDEST_MS = 5000;
/** Whoever noted something at the bin within this time before waits for what comes of it: as long as a request may take. */
const OWN_MS = 30_000;

interface Ahead {
  /** By bin, the instant of the first change that its outlook does not have yet; the bin that changed last stands last. */
  readonly behind: Map<string, Date>;
  /** Bins of which somebody was told the older one. */
  readonly told: Set<string>;
  /** Looks at all bins that are not known yet today, once for all who ask; then whoever was told a board without them asks again. */
  lookAtRest(): void;
}

const aheadOf = new WeakMap<Store, Ahead>();

/**
 * Begins to work ahead: one bin at a time, the one that changed last first, changes of one bin as one.
 *
 * @param onNew Called with a bin of which somebody was told the older outlook, once the new one is there
 * @returns How to stop
 */
export function workAhead(store: Store, clock: Clock, onNew: (binId: string) => void): () => void {
  const behind: Ahead['behind'] = new Map();
  const told: Ahead['told'] = new Set();
  const today = (timeZone: string) => localDateAt(clock.now(), timeZone);
  let readTo = lastChangeId(store);
  let isRunning = false;
  // Once it is stopped the store may be closed.
  const isOn = () => aheadOf.get(store) === ahead;
  const ahead: Ahead = { behind, told, lookAtRest: lookerAtRest({ store, today }, isOn, onNew) };
  const workOut = async (id: string): Promise<void> => {
    const bin = findBin(store, id);
    const { own } = touchOf(store, id);
    // A fault is told to whoever looks, who asks again.
    if (bin !== undefined && bin.state !== 'retired') await outlookFor({ store, today }, bin).catch(() => undefined);
    if (!isOn() || touchOf(store, id).own !== own) return;
    behind.delete(id);
    if (told.delete(id)) onNew(id);
  };
  const run = async (): Promise<void> => {
    isRunning = true;
    while (behind.size > 0 && isOn()) {
      // Whoever made the change has the answer first.
      await setImmediate();
      const last = isOn() ? [...behind.keys()].at(-1) : undefined;
      if (last !== undefined) await workOut(last);
    }
    isRunning = false;
  };
  const note = (): void => {
    for (const id of touchedAfter(store, readTo)) {
      const since = behind.get(id) ?? clock.now();
      behind.delete(id);
      behind.set(id, since);
    }
    readTo = lastChangeId(store);
    if (!isRunning) void run();
  };
  aheadOf.set(store, ahead);
  store.afterCommit.add(note);
  return () => {
    store.afterCommit.delete(note);
    aheadOf.delete(store);
  };
}

/** Bins are gone through for so long without a pause. */
const TURN_MS = 20;

function lookerAtRest(call: Pick<Context, 'store' | 'today'>, isOn: () => boolean, onNew: (binId: string) => void): () => void {
  let isLooking = false;
  const look = async (): Promise<void> => {
    let last: string | undefined;
    let turn = performance.now();
    for (const bin of listBins(call.store)) {
      if (!isOn()) return;
      if (bin.state === 'retired') continue;
      const { now, later } = briefing(call, bin);
      if (now === null) {
        await later().catch(() => undefined);
        last = bin.id;
      }
      if (performance.now() - turn < TURN_MS) continue;
      // Others want to be answered meanwhile.
      await setImmediate();
      turn = performance.now();
    }
    if (last !== undefined && isOn()) onNew(last);
  };
  return () => {
    if (isLooking) return;
    isLooking = true;
    look()
      // What fails here fails again, and is told, when somebody asks for it.
      .catch(() => undefined)
      .finally(() => {
        isLooking = false;
      });
  };
}

export interface SoonBriefed extends Briefed {
  /** Since when it is being worked out anew; null when it has all that was noted. */
  readonly anewSince: string | null;
}

/** A reader's patience with one answer, however many bins are in it. */
export interface Patience {
  /** With a bin of which an older outlook could be told. */
  short(): Promise<null>;
  /** With bins of which nothing could be told. */
  first(): Promise<null>;
  isOver(): boolean;
}

export function patience(): Patience {
  let short: Promise<null> | null = null;
  let first: Promise<null> | null = null;
  let isOver = false;
  return {
    short: () => {
      short ??= sleep(PATIENCE_MS, null, { ref: false });
      return short;
    },
    first: () => {
      first ??= sleep(FIRST_PATIENCE_MS, null, { ref: false }).then(() => {
        isOver = true;
        return null;
      });
      return first;
    },
    isOver: () => isOver,
  };
}

/** What is known of a bin without waiting long: what was told before, with its mark, where the new one takes its time; null where nothing is known yet. */
export async function briefSoon(call: Context, bin: BinRow, wait: Patience): Promise<SoonBriefed | null> {
  const ahead = aheadOf.get(call.store);
  const { now, later } = briefing(call, bin);
  if (now !== null) return { ...now, anewSince: null };
  if (ahead === undefined) return { ...(await later()), anewSince: null };
  const since = ahead.behind.get(bin.id);
  const older = since === undefined || mustWait(call, bin, since) ? null : olderFor(call, bin);
  if (since === undefined || older === null) {
    // Whoever has waited long enough for others does not have this one worked out before those that changed.
    const first = wait.isOver() ? null : await Promise.race([later(), wait.first()]);
    if (first === null) ahead.lookAtRest();
    return first === null ? null : { ...first, anewSince: null };
  }
  const fresh = later();
  const first = await Promise.race([fresh, wait.short()]);
  if (first !== null || !ahead.behind.has(bin.id)) return { ...(first ?? (await fresh)), anewSince: null };
  ahead.told.add(bin.id);
  return { ...older, anewSince: since.toISOString() };
}

function mustWait({ store, now, who }: Context, bin: BinRow, since: Date): boolean {
  const ageMs = now.getTime() - since.getTime();
  // A request that began before the change may see a negative age, a clock that was put back a large one.
  if (ageMs < -OLDEST_MS || ageMs > OLDEST_MS - PATIENCE_MS) return true;
  const from = new Date(since.getTime() - OWN_MS).toISOString();
  return who !== null && hasNotedSince(store, { binId: bin.id, personId: who.personId, from });
}
