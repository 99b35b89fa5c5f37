/** A made-up site whose people follow the advice as people do: late, by eye, and not looking every time. For tests of calm. */
import type { BinEvent, BinSetup, Scenario } from './bin/scenario.ts';
import { type Outlook, outlookOf } from './outlook.ts';
import { SIGNALS } from './signals/registry.ts';
import type { SignalId } from './signals/types.ts';

const MIN_C = [2, 2, 4, 6, 9, 12, 14, 14, 12, 9, 5, 3];
const MAX_C = [8, 9, 12, 15, 19, 22, 24, 24, 20, 16, 11, 9];
const CARD = 'cardboard_corrugated';
const FIRST_DAY_OF_YEAR = 90;

const KINDS: readonly Omit<BinSetup, 'ageDays'>[] = [
  {
    kind: 'tote',
    areaM2: 0.3,
    depthM: 0.4,
    zones: 4,
    openBase: false,
    exposure: 'indoors',
    worms: { massKg: 0.7 },
    bed: [
      { material: CARD, massKg: 2.5 },
      { material: 'castings', massKg: 4 },
    ],
    bedWaterKg: 7,
  },
  {
    kind: 'tray-stack',
    areaM2: 0.16,
    depthM: 0.45,
    zones: 2,
    openBase: false,
    exposure: 'indoors',
    worms: { massKg: 0.6 },
    bed: [
      { material: 'newsprint_shredded', massKg: 1.5 },
      { material: 'castings', massKg: 6 },
    ],
    bedWaterKg: 5,
  },
  {
    kind: 'flow-through',
    areaM2: 1.2,
    depthM: 0.6,
    zones: 6,
    openBase: true,
    exposure: 'shade',
    worms: { massKg: 4 },
    bed: [
      { material: CARD, massKg: 10 },
      { material: 'leaves_dry', massKg: 10 },
      { material: 'castings', massKg: 100 },
    ],
    bedWaterKg: 55,
  },
  {
    kind: 'bed',
    areaM2: 2,
    depthM: 0.4,
    zones: 8,
    openBase: true,
    exposure: 'part-sun',
    worms: { massKg: 5 },
    bed: [
      { material: 'leaves_dry', massKg: 20 },
      { material: 'compost_finished', massKg: 60 },
    ],
    bedWaterKg: 90,
  },
  {
    kind: 'fabric',
    areaM2: 0.5,
    depthM: 0.5,
    zones: 4,
    openBase: false,
    exposure: 'shade',
    worms: { massKg: 1.5 },
    bed: [
      { material: CARD, massKg: 5 },
      { material: 'castings', massKg: 10 },
    ],
    bedWaterKg: 15,
  },
];

export interface KeptBin {
  readonly kind: BinSetup['kind'];
  /** Day on which a flag that counts as an alert first entered `act`. */
  readonly alerts: readonly { readonly day: number; readonly id: SignalId }[];
  readonly fedKg: number;
  readonly days: number;
  readonly last: Outlook;
}

/** One bin for so many days; the number makes its kind, its age and its people's habits. */
export function keepBin(number: number, days: number): KeptBin {
  const bin: BinSetup = { ...(KINDS[number % KINDS.length] as (typeof KINDS)[number]), ageDays: 30 * (number % 10) };
  const chance = chanceFrom(number);
  const events: BinEvent[] = [];
  const alerts: { day: number; id: SignalId }[] = [];
  let acting = new Set<SignalId>();
  let nextVisit = number % 4;
  let fedKg = 0;
  for (let day = 0; ; day++) {
    const outlook = outlookOf(scenarioOf(bin, events, day), day, { checkIntervalDays: 7, resting: false, historyDays: 1 });
    const now = outlook.signals
      .filter(({ id, band, partOf }) => band === 'act' && partOf === null && SIGNALS[id].role === 'alert')
      .map(({ id }) => id);
    alerts.push(...now.filter((id) => !acting.has(id)).map((id) => ({ day, id })));
    acting = new Set(now);
    if (day === days - 1) return { kind: bin.kind, alerts, fedKg, days, last: outlook };
    if (day < nextVisit) continue;
    const done = visit(outlook, bin, day, chance);
    fedKg += done.reduce((sum, event) => sum + (event.type === 'feeding' ? (event.items[0]?.massKg ?? 0) : 0), 0);
    events.push(...done);
    nextVisit = day + 3 + Math.floor(chance() * 3);
  }
}

function scenarioOf(bin: BinSetup, events: readonly BinEvent[], days: number): Scenario {
  const climate = bin.exposure === 'indoors' ? { tempC: 19 } : { monthly: { minC: MIN_C, maxC: MAX_C, firstDayOfYear: FIRST_DAY_OF_YEAR } };
  return { schema: 'middenry-scenario/1', days, members: 1, seed: 1, bin, climate, events: [...events] };
}

/** Feeds what is advised, 30 % less to 40 % more; looks four times in five; waters, harvests and adds bedding when that is due. */
function visit(outlook: Outlook, bin: BinSetup, day: number, chance: () => number): readonly BinEvent[] {
  const { advice } = outlook;
  const [food, card] = [0.7 + 0.7 * chance(), 0.7 + 0.6 * chance()].map((ratio) => ratio / Math.max(1, advice.zones.length)) as [
    number,
    number,
  ];
  const events: BinEvent[] = advice.zones.map((zone) => ({
    day,
    type: 'feeding',
    zone,
    items: [{ material: 'food_scraps_veg', massKg: advice.massKg * food, how: 'container' }],
    beddingKg: advice.beddingKg * card,
    beddingMaterial: CARD,
  }));
  if (chance() < 0.8) events.push({ day, type: 'check', smell: 'earthy' });
  const helps = (id: SignalId): number | null => outlook.signals.find((signal) => signal.id === id)?.remedies[0]?.massKg ?? null;
  for (const duty of outlook.duties.filter(({ dueDay }) => dueDay <= day)) {
    const [water, harvest] = [helps('dry'), helps('harvest-due')];
    if (duty.kind === 'water' && water) events.push({ day, type: 'water', massKg: water });
    if (duty.kind === 'harvest' && harvest) events.push({ day, type: 'harvest', massKg: harvest });
    if (duty.kind === 'bedding') events.push({ day, type: 'bedding', items: [{ material: CARD, massKg: bin.areaM2 * 2 }] });
  }
  return events;
}

const TWO_TO_32 = 2 ** 32;

/** A seeded row of numbers from 0 to 1. */
function chanceFrom(seed: number): () => number {
  let state = Math.imul(seed + 1, 2_654_435_761) >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / TWO_TO_32;
  };
}
