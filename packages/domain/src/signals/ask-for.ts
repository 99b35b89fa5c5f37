import type { BinRun } from '../bin/run.ts';
import type { BinEvent } from '../bin/scenario.ts';
import { courseOf, daysAt, type Keeping } from './assess.ts';
import { BAND_MARKS } from './bands.ts';
import type { MembersDay } from './member-day.ts';
import { SIGNALS } from './registry.ts';
import { type Ask, SIGNAL_IDS, type SignalId, type SignalOutlook } from './types.ts';
import { worthAsking } from './worth-asking.ts';

/** A bin as it stands, with the days behind and ahead. */
export interface Asking extends Keeping {
  readonly today: number;
  readonly run: BinRun;
  readonly past: readonly MembersDay[];
  readonly coming: readonly MembersDay[];
  readonly log: readonly BinEvent[];
  readonly planned: readonly BinEvent[];
}

/** What to look at to be surer of a flag; of a bin nobody looked at, to be surer whether anything is wrong. */
export function askFor(signal: Pick<SignalOutlook, 'id' | 'zone'>, from: Asking): Ask | null {
  const { run, today, past, coming } = from;
  if (run.state.members === 1) return null;
  const days = [...past, ...coming];
  const at = daysAt(from, days, [...from.log, ...from.planned]);
  const ids: readonly SignalId[] = signal.id === 'unseen' ? SIGNAL_IDS.filter((id) => SIGNALS[id].role === 'alert') : [signal.id];
  const courses = ids.map((id) => courseOf(SIGNALS[id], at));
  const within = days.flatMap(({ day }, index) => (day >= today && day <= today + BAND_MARKS.horizonDays.value ? [index] : []));
  const happens = Array.from({ length: run.state.members }, (_, member) =>
    courses.some(({ holds }) => within.some((index) => holds[index]?.[member] === true)),
  );
  return worthAsking(run.state, happens, from.setup.areaM2, signal.zone);
}
