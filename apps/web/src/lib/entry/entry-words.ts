import type { Entry } from '../bin/types.ts';
import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';

/** What an entry says, in one line and its details. */
export function entryWords(entry: Entry, f: Format): { main: string; details: string[] } {
  const w = words.entry;
  const clock = entry.clockSkewed ? [w.clock] : [];
  switch (entry.kind) {
    case 'feeding': {
      const foods = f.list(entry.items.map((i) => i.materialName));
      const hows = [...new Set(entry.items.map((i) => words.how[i.how]))];
      return {
        main: w.feeding(f.mass(entry.massKg), foods, entry.zone),
        details: [
          ...hows,
          ...(entry.beddingKg > 0 ? [w.feedingBedding(f.mass(entry.beddingKg))] : []),
          ...(entry.waterKg > 0 ? [w.feedingWater(f.water(entry.waterKg))] : []),
          ...clock,
        ],
      };
    }
    case 'check':
      return {
        main: w.check,
        details: [
          ...(entry.squeeze ? [w.squeeze(words.squeezes[entry.squeeze])] : []),
          ...(entry.smell ? [w.smell(words.smells[entry.smell])] : []),
          ...(entry.worms ? [w.worms(words.worms[entry.worms])] : []),
          ...entry.leftover.map((l) => w.leftover(l.zone, words.leftovers[l.left])),
          ...(entry.bedTempC === null ? [] : [w.temp(f.temp(entry.bedTempC))]),
          ...(entry.ph === null ? [] : [`pH ${f.number(entry.ph, 1)}`]),
          ...(entry.visitors.length > 0 ? [w.visitors(f.list(entry.visitors.map((v) => words.visitors[v])))] : []),
          ...clock,
        ],
      };
    case 'harvest':
      return {
        main: w.harvest(f.mass(entry.massKg), words.destinations[entry.destination]),
        details: [words.how[entry.how], ...(entry.destinationNote ? [entry.destinationNote] : []), ...clock],
      };
    default:
      return entry satisfies never;
  }
}
