import type { DateSpan, Pairing, RotaPerson, RotaShift, RotaSpec, WeeklyTime } from '@middenry/domain';
import fc from 'fast-check';
import { personOf, rotaOf, shiftOf } from './spec.ts';

const cap = (most: number) => fc.option(fc.integer({ min: 1, max: most }), { nil: null, freq: 1 });
/** Mostly one thing, now and then another: a rota in which every rule bites everybody leaves nothing to choose. */
const mostly = <Item>(usual: NoInfer<Item>, other: fc.Arbitrary<Item>): fc.Arbitrary<Item> =>
  fc.oneof({ weight: 3, arbitrary: fc.constant(usual) }, { weight: 1, arbitrary: other });
const both = ['orchard', 'yard'];
const skills = mostly(['harvest', 'first-aid'], fc.subarray(['harvest', 'first-aid']));

const weekly: fc.Arbitrary<WeeklyTime[]> = fc.array(
  fc.record({
    weekday: fc.integer({ min: 1, max: 7 }),
    fromMinute: fc.constantFrom(480, 540),
    toMinute: fc.constantFrom(660, 1200),
    liking: fc.constantFrom('glad', 'can', 'if-needed'),
  }),
  { maxLength: 3 },
);

const person = (id: string): fc.Arbitrary<RotaPerson> =>
  fc
    .record({
      adult: mostly<boolean>(true, fc.constant(false)),
      cleared: mostly<boolean>(true, fc.constant(false)),
      siteIds: mostly(both, fc.subarray(both, { minLength: 1 })),
      skills,
      wish: fc.integer({ min: 0, max: 4 }),
      caps: fc.record({ period: cap(4), week: cap(3), day: cap(2) }),
      weekly: mostly([], weekly),
      away: mostly<DateSpan[]>([], fc.constantFrom([{ from: '2027-05-03', to: '2027-05-03' }], [{ from: '2027-05-05', to: '2027-05-09' }])),
      declined: mostly([], fc.subarray(['s0', 's1', 's2'], { maxLength: 1 })),
      marks: fc.dictionary(fc.constantFrom('s0', 's1', 's2', 's3'), fc.integer({ min: 0, max: 6 }), { maxKeys: 2 }),
    })
    .map((rest) => personOf(id, rest));

const shift = (id: string): fc.Arbitrary<RotaShift> =>
  fc
    .record({
      day: fc.integer({ min: 0, max: 8 }),
      fromMinute: fc.constantFrom(540, 570, 600, 780),
      siteId: fc.constantFrom('orchard', 'yard'),
      urgency: fc.integer({ min: 1, max: 3 }),
      places: fc.array(fc.record({ count: fc.integer({ min: 1, max: 2 }), skills: mostly([], fc.subarray(['harvest', 'first-aid'])) }), {
        minLength: 1,
        maxLength: 2,
      }),
      adultRule: fc.record({ leastAdults: fc.integer({ min: 1, max: 2 }), pupilsPerAdult: fc.integer({ min: 1, max: 2 }) }),
    })
    .map((rest) => shiftOf(id, rest));

export interface Sizes {
  readonly people: number;
  readonly shifts: number;
}

/** Rotas of every kind, up to a size; sign-ups and earlier proposals may be at odds with any rule. */
export function randomSpec({ people, shifts }: Sizes): fc.Arbitrary<RotaSpec> {
  const many = <Item>(most: number, letter: string, one: (id: string) => fc.Arbitrary<Item>): fc.Arbitrary<Item[]> =>
    fc
      .integer({ min: Math.min(1, most), max: most })
      .chain((count) => fc.tuple(...Array.from({ length: count }, (_, index) => one(`${letter}${index}`))));
  return fc
    .tuple(many(people, 'p', person), many(shifts, 's', shift), fc.constantFrom(0, 30), fc.infiniteStream(fc.integer({ min: 0, max: 9 })))
    .map(([some, others, travelMinutes, dice]) => {
      const pairings: Pairing[] = some.flatMap(({ id: personId }) => others.map(({ id: shiftId }) => ({ personId, shiftId })));
      const thrown = pairings.map((pairing) => ({ pairing, pips: dice.next().value ?? 0 }));
      return rotaOf(some, others, {
        travelMinutes,
        signUps: thrown.filter(({ pips }) => pips === 0).map(({ pairing }) => pairing),
        earlier: thrown.filter(({ pips }) => pips === 1).map(({ pairing }) => pairing),
      });
    });
}
