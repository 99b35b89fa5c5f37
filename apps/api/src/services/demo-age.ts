import { findProgramme } from '../db/repositories/programme.ts';
import { storeMadeAt } from '../db/repositories/store-age.ts';
import type { Store } from '../db/store.ts';

const OLD_DAYS = 3;

/** Whether this is a demonstration whose "today" has slipped too far into the past to show anything. */
export function isOldDemo(store: Store, now: Date): boolean {
  if (!findProgramme(store)?.isDemo) return false;
  const oldFrom = new Date(storeMadeAt(store));
  oldFrom.setUTCDate(oldFrom.getUTCDate() + OLD_DAYS);
  return now > oldFrom;
}
