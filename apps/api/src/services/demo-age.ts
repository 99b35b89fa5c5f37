import type { Context } from '../context.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import { storeMadeAt } from '../db/repositories/store-age.ts';
import type { Store } from '../db/store.ts';
import { refuse } from '../refusal.ts';

const OLD_DAYS = 3;

/**
 * Has the demonstration made anew; the answer goes out first.
 *
 * @throws {Refusal} only-in-demo or demo-is-fresh
 */
export function renewDemo(context: Context): void {
  if (context.renewDemo === undefined || !findProgramme(context.store)?.isDemo) throw refuse('only-in-demo');
  if (!isOldDemo(context.store, context.now)) throw refuse('demo-is-fresh');
  context.renewDemo();
}

/** Whether this is a demonstration whose "today" has slipped too far into the past to show anything. */
export function isOldDemo(store: Store, now: Date): boolean {
  if (!findProgramme(store)?.isDemo) return false;
  const oldFrom = new Date(storeMadeAt(store));
  oldFrom.setUTCDate(oldFrom.getUTCDate() + OLD_DAYS);
  return now > oldFrom;
}
