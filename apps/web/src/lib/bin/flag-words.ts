import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';
import { readValues } from '../messages/values.ts';
import type { Ask, Duty, Flag, Reason, Remedy, Surprise } from './types.ts';

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

/** What to do, with the second thing that goes with it. */
export function remedySentence(remedy: Remedy, f: Format): string {
  const step = ({ id, zone, massKg }: Pick<Remedy, 'id' | 'zone' | 'massKg'>) => words.remedies[id]({ zone, massKg }, f);
  return remedy.also === null ? step(remedy) : words.bin.both(step(remedy), step(remedy.also));
}

export function askSentence(ask: Ask): string {
  return words.looks[ask.look](ask.zone);
}

/** What was seen against all expectation, and what may be behind it. */
export function surpriseWords(surprise: Surprise, f: Format): { what: string; maybe: string } {
  return {
    what: words.bin.surprise(f.on(surprise.on), words.seen[surprise.kind](surprise.zone)),
    maybe: words.bin.maybe(f.either(surprise.causes.map((cause) => words.surpriseCauses[cause]))),
  };
}

export function dutyWords(duty: Duty, f: Format): { what: string; when: string; why: string } {
  const what = words.duties[duty.kind];
  const why = words.dutyWhys[duty.why];
  if (duty.overdue) return { what, why, when: words.bin.dutyOverdue(f.since(duty.dueOn)) };
  if (duty.dueOn < f.settings.today) return { what, why, when: words.bin.dutyPast(f.near(duty.dueOn)) };
  const open = duty.fromOn <= f.settings.today;
  return { what, why, when: open ? words.bin.dutyBy(f.near(duty.dueOn)) : words.bin.dutyWindow(f.near(duty.fromOn), f.near(duty.dueOn)) };
}
