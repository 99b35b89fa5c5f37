/** Outlooks are worked out as soon as a bin's log has changed, so that whoever looks next finds them there (criteria F27). */
import { setImmediate, setTimeout as sleep } from 'node:timers/promises';
import type { Clock, Context } from '../context.ts';
import { type BinRow, findBin } from '../db/repositories/bin.ts';
import { lastChangeId } from '../db/repositories/change.ts';
import { hasNotedSince } from '../db/repositories/outlook.ts';
import type { Store } from '../db/store.ts';
import { localDateAt } from './local-time.ts';
import { type Outlooked, olderFor, outlookFor } from './outlook-cache.ts';
import { touchedAfter, touchOf } from './touched.ts';

/** A reader of the board waits for a new outlook so long, then gets the one from before with its mark. */
export const PATIENCE_MS = 60;
/** No older one is told for longer than this after the change that it does not have. */
const OLDEST_MS = 5000;
/** Whoever noted something at the bin within this time before waits for what comes of it: as long as a request may take. */
const OWN_MS = 30_000;

interface Ahead {
  /** By bin, the instant of the first change that its outlook does not have yet; the bin that changed last stands last. */
  readonly behind: Map<string, Date>;
  /** Bins of which somebody was told the older one. */
  readonly told: Set<string>;
}

const aheadOf = new WeakMap<Store, Ahead>();

/**
 * Begins to work ahead: one bin at a time, the one that changed last first, changes of one bin as one.
 *
 * @param onNew Called with a bin of which somebody was told the older outlook, once the new one is there
 * @returns How to stop
 */
export function workAhead(store: Store, clock: Clock, onNew: (binId: string) => void): () => void {
  const ahead: Ahead = { behind: new Map(), told: new Set() };
  const { behind, told } = ahead;
  const today = (timeZone: string) => localDateAt(clock.now(), timeZone);
  let readTo = lastChangeId(store);
  let isRunning = false;
  // Once it is stopped the store may be closed.
  const isOn = () => aheadOf.get(store) === ahead;
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

export interface SoonOutlooked extends Outlooked {
  /** Since when it is being worked out anew; null when it has all that was noted. */
  readonly anewSince: string | null;
}

/** One moment of patience for a whole answer, however many bins are in it. */
export function patience(): () => Promise<null> {
  let over: Promise<null> | null = null;
  return () => {
    over ??= sleep(PATIENCE_MS, null, { ref: false });
    return over;
  };
}

/** What is known of a bin without waiting long: the older outlook, with its mark, where the new one takes its time. */
export async function outlookSoon(call: Context, bin: BinRow, wait: () => Promise<null>): Promise<SoonOutlooked> {
  const fresh = outlookFor(call, bin);
  const ahead = aheadOf.get(call.store);
  const since = ahead?.behind.get(bin.id);
  const older = since === undefined || mustWait(call, bin, since) ? null : olderFor(call, bin);
  if (ahead === undefined || since === undefined || older === null) return { ...(await fresh), anewSince: null };
  const first = await Promise.race([fresh, wait()]);
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
