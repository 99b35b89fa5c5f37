import type { Entry } from '../bin/types.ts';
import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';

/** What an entry says, in one line and its details. */
export function entryWords(entry: Entry, f: Format): { main: string; details: string[] } {
  const w = words.entry;
  const clock = entry.clockSkewed ? [w.clock] : [];
  switch (entry.kind) {
    case 'feeding': {
      const foods = f.list(entry.items.map((i) => words.midSentence(i.materialName)));
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
    case 'care':
      return { main: careWords(entry, f), details: clock };
    case 'note':
      return { main: w.note, details: clock };
    case 'worms':
      return { main: wormWords(entry, f), details: [...(entry.massKg === null ? [] : [words.how[entry.how]]), ...clock] };
    default:
      return entry satisfies never;
  }
}

type Care = Extract<Entry, { kind: 'care' }>;
type Worms = Extract<Entry, { kind: 'worms' }>;

function careWords(entry: Care, f: Format): string {
  return words.care[entry.action]({
    zone: entry.zone === null ? '' : ` ${words.log.inZone(String(entry.zone))}`,
    mass: entry.massKg === null ? '' : f.mass(entry.massKg),
    water: entry.massKg === null ? '' : f.water(entry.massKg),
    material: entry.materialName === null ? words.entry.card : words.midSentence(entry.materialName),
    where: entry.exposure === null ? '' : words.exposures[entry.exposure],
    share: entry.share === null ? '' : f.percent(entry.share),
  });
}

function wormWords(entry: Worms, f: Format): string {
  const other = entry.otherBinCode;
  if (entry.direction === 'added') return words.worms_.added(entry.massKg === null ? '' : f.mass(entry.massKg), other);
  const share = entry.share === null ? '' : f.percent(entry.share);
  return entry.direction === 'given-away' ? words.worms_.given(share, other) : words.worms_.split(share, other);
}
