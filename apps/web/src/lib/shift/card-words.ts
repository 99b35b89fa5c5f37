import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';
import type { CardDuty, ShiftCard } from './types.ts';

type Feed = NonNullable<CardDuty['feed']>;

/** What is to do at a bin and how much of it, in one line and its details. */
export function dutyLine(duty: CardDuty, f: Format): { main: string; details: string[] } {
  const w = words.card;
  const name = words.duties[duty.kind];
  const why = duty.why === null ? [] : [words.dutyWhys[duty.why]];
  const late = duty.urgency === null || duty.urgency === 'in-window' ? [] : [words.urgencies[duty.urgency]];
  if (duty.feed !== null) return { main: `${name}: ${feedMain(duty.feed, f)}`, details: [...feedDetails(duty.feed, f), ...late] };
  if (duty.massKg === null || duty.massKg === 0) return { main: name, details: [...why, ...late] };
  const amount =
    duty.kind === 'water'
      ? w.bedMass(f.water(duty.massKg))
      : duty.kind === 'harvest'
        ? w.castings(f.mass(duty.massKg))
        : w.bedMass(f.mass(duty.massKg));
  return { main: `${name}: ${amount}`, details: [...why, ...late] };
}

function feedMain(feed: Feed, f: Format): string {
  const w = words.card;
  if (feed.hold !== null) return w.holdFeed(words.holds[feed.hold]).replace(/\.$/, '');
  return w.feed(f.mass(feed.massKg), feed.zones[0] ?? null);
}

function feedDetails(feed: Feed, f: Format): string[] {
  const w = words.card;
  if (feed.hold !== null) return [];
  const sized = feed.containers.map(({ count, name }) => `${half(count)} × ${name}`);
  return [
    ...(feed.from === 'intake' ? [w.planned] : feed.highKg > feed.lowKg ? [w.range(f.mass(feed.lowKg), f.mass(feed.highKg))] : []),
    ...feed.scraps.map(({ name, massKg }) => `${f.mass(massKg)} ${words.midSentence(name)}`),
    ...(sized.length > 0 ? [w.containers(sized.join(w.or))] : []),
    ...feed.bedding.map(({ name, massKg }) => w.bedding(f.mass(massKg), words.midSentence(name))),
  ];
}

/** Counts come in halves: 1.5 is one and a half. */
export function half(count: number): string {
  const whole = Math.floor(count);
  return `${whole === 0 ? '' : whole}${count > whole ? '½' : ''}` || '0';
}

/** What to bring, a line each; a line says where the store has too little. */
export function bringLines({ bedding, waterKg }: ShiftCard['bring'], f: Format): string[] {
  const w = words.card;
  if (bedding.length === 0 && waterKg === 0) return [w.bringNothing];
  return [
    w.bringGloves,
    ...bedding.map(({ name, massKg, inStoreKg }) => {
      const line = w.bringBedding(f.mass(massKg), words.midSentence(name), f.mass(inStoreKg));
      return massKg > inStoreKg ? `${line}: ${w.short}` : line;
    }),
    ...(waterKg > 0 ? [w.bringWater(f.water(waterKg))] : []),
  ];
}
