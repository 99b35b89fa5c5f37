import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';
import { readValues } from '../messages/values.ts';
import type { Duty, Flag, Reason, Remedy } from './types.ts';

function facts(flag: Flag, f: Format) {
  const by = flag.firstLikelyOn === null || flag.holdsNow ? null : f.near(flag.firstLikelyOn);
  return { zone: flag.zone, holdsNow: flag.holdsNow, by, act: flag.band === 'act' };
}

/** The sentence with the answer in it. */
export function flagSentence(flag: Flag, f: Format): string {
  return words.signals[flag.signal].says(facts(flag, f));
}

/** Two or three words for a tile. */
export function flagShort(flag: Flag, f: Format): string {
  return words.signals[flag.signal].short(facts(flag, f));
}

export function flagElse(flag: Flag): string {
  return words.signals[flag.signal].else;
}

export function flagSince(flag: Flag, f: Format): string {
  const name = words.signals[flag.signal].name;
  return flag.sinceOn === null ? name : `${name}, ${f.since(flag.sinceOn)}`;
}

export function reasonSentence(reason: Reason, f: Format): string {
  return words.reasons[reason.code](readValues(reason.values, f), f);
}

/** The day a reason speaks of, or null when it is a conclusion. */
export function reasonDay(reason: Reason, f: Format): string | null {
  return readValues(reason.values, f).day;
}

export function remedySentence(remedy: Remedy, f: Format): string {
  return words.remedies[remedy.id]({ zone: remedy.zone, massKg: remedy.massKg }, f);
}

export function dutyWords(duty: Duty, f: Format): { what: string; when: string } {
  const what = words.duties[duty.kind];
  if (duty.overdue) return { what, when: words.bin.dutyOverdue(f.since(duty.dueOn)) };
  const open = duty.fromOn <= f.settings.today;
  return { what, when: open ? `by ${f.near(duty.dueOn)}` : words.bin.dutyWindow(f.near(duty.fromOn), f.near(duty.dueOn)) };
}
