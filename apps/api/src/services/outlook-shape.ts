/** What the model says of a bin in the shapes of the API: scenario days become dates of the site. */
import type { BinOutlook, BoardBin, Flag } from '@middenry/contract';
import {
  type DayRow,
  type DutyWindow,
  type Outlook,
  type Reason,
  ROW_QUANTITIES,
  type RowQuantity,
  type SignalId,
  type SignalOutlook,
  type Surprise,
} from '@middenry/domain';
import type { BinRow } from '../db/repositories/bin.ts';
import type { PlannedFeeding } from './feed-plan.ts';
import { addDays } from './local-time.ts';

type DateOf = (day: number) => string;
type FlagShape = Flag;
type TrendShape = BoardBin['trend'];
type TrendQuantity = Extract<RowQuantity, TrendShape['quantity']>;

/** Eight weeks back from today (criteria A12). */
const TREND_DAYS = 56;

/** Dates of one bin's days, each worked out once. */
export function datesFrom(startedOn: string): DateOf {
  const known = new Map<number, string>();
  return (day) => {
    const date = known.get(day) ?? addDays(startedOn, day);
    known.set(day, date);
    return date;
  };
}

/** What the board has from the model alone. */
export type OutlookOfBin = Omit<BoardBin, 'notes' | 'isAside' | 'anewSince'>;

export function boardBin(bin: BinRow, outlook: Outlook, dateOf: DateOf): OutlookOfBin {
  const { now, band } = outlook;
  const { id, code, name, siteId, siteName, kind, placeOrder, state } = bin;
  const flags = outlook.signals
    .filter((signal) => signal.band !== 'settled' && signal.partOf === null)
    .map((signal) => flagShape(signal, dateOf));
  return {
    ...{ id, code, name, siteId, siteName, kind, placeOrder, band, flags },
    state: state === 'resting' ? 'resting' : 'active',
    lastFedOn: onOrNull(now.lastFedDay, dateOf),
    lastCheckedOn: onOrNull(now.lastCheckDay, dateOf),
    foodInHandDays: now.foodInHandDays.p50,
    castingsKg: now.castingsKgWb.p50,
    advice: adviceShape(outlook),
    trend: trendOf(outlook, dateOf),
  };
}

interface View {
  readonly dateOf: DateOf;
  readonly today: string;
  readonly historyDays: number;
  readonly planned: readonly PlannedFeeding[];
  /** Left out where nobody draws the history. */
  readonly noted?: BinOutlook['noted'];
  readonly laid?: BinOutlook['laid'];
}

/** All but what people said of its flags, which is not the model's. */
export function binOutlook(bin: BinRow, outlook: Outlook, view: View): BinOutlook {
  const { dateOf, today, historyDays, planned, noted = [], laid = [] } = view;
  const { now, band, advice } = outlook;
  return {
    binId: bin.id,
    today,
    band,
    flags: outlook.signals.map((signal) => flagShape(signal, dateOf)),
    zones: now.zones.map(({ lastFedDay, foodLeftKgWb, ...zone }) => ({
      ...zone,
      foodLeftKg: foodLeftKgWb,
      lastFedOn: onOrNull(lastFedDay, dateOf),
      isNext: advice.zones[0] === zone.zone,
    })),
    now: { ...now, castingsKg: now.castingsKgWb },
    lastFedOn: onOrNull(now.lastFedDay, dateOf),
    lastCheckedOn: onOrNull(now.lastCheckDay, dateOf),
    lastHarvestOn: onOrNull(now.lastHarvestDay, dateOf),
    advice: adviceShape(outlook),
    duties: outlook.duties.map((duty) => dutyShape(duty, outlook.day, dateOf)),
    surprises: outlook.surprises.map((surprise) => surpriseShape(surprise, dateOf)),
    planned: planned.map(({ on, zone, massKg, from }) => ({ on, zone, massKg, from })),
    notes: [],
    laid,
    noted,
    history: outlook.history.slice(-historyDays).map((row) => dayShape(row, dateOf)),
    forecast: outlook.forecast.map((row) => dayShape(row, dateOf)),
  };
}

export function flagShape(signal: SignalOutlook, dateOf: DateOf): FlagShape {
  return {
    signal: signal.id,
    band: signal.band,
    partOf: signal.partOf,
    probability: signal.probability,
    holdsNow: signal.holdsNow,
    firstLikelyOn: onOrNull(signal.firstLikelyDay, dateOf),
    sinceOn: onOrNull(signal.sinceDay, dateOf),
    zone: signal.zone,
    reasons: signal.reasons.map((reason) => reasonShape(reason, dateOf)),
    remedies: signal.remedies.map(({ cautions, ...remedy }) => ({ ...remedy, cautions: [...cautions] })),
    ask: signal.ask,
  };
}

/** A day of the model means nothing to a reader: `day` becomes the date `dayOn`. */
function reasonShape({ code, values, entryIds }: Reason, dateOf: DateOf): FlagShape['reasons'][number] {
  const dated = Object.entries(values).map(([name, value]) => (name === 'day' ? ['dayOn', dateOf(Number(value))] : [name, value]));
  return { code, values: Object.fromEntries(dated), entryIds: [...entryIds] };
}

const surpriseShape = ({ day, causes, ...surprise }: Surprise, dateOf: DateOf): BinOutlook['surprises'][number] => ({
  ...surprise,
  on: dateOf(day),
  causes: [...causes],
});

const adviceShape = ({ advice: { how: _how, zones, ...advice } }: Outlook): BoardBin['advice'] => ({ ...advice, zones: [...zones] });

const dutyShape = ({ kind, why, fromDay, dueDay, overdueDay }: DutyWindow, today: number, dateOf: DateOf) => ({
  kind,
  why,
  fromOn: dateOf(fromDay),
  dueOn: dateOf(dueDay),
  overdueOn: dateOf(overdueDay),
  overdue: today > overdueDay,
});

const dayShape = (row: DayRow, dateOf: DateOf): BinOutlook['history'][number] => ({
  on: dateOf(row.day),
  ...(Object.fromEntries(ROW_QUANTITIES.map((quantity) => [quantity, row[quantity]])) as Record<RowQuantity, DayRow[RowQuantity]>),
});

/** What is drawn for a bin: the quantity its trouble shows in, moisture for a bin without any. */
const SHOWN_IN: Readonly<Partial<Record<SignalId, TrendQuantity>>> = {
  airless: 'airlessFrac',
  overfed: 'foodInHandDays',
  hungry: 'foodInHandDays',
  sour: 'airlessFrac',
  hot: 'bedTempC',
  cold: 'bedTempC',
  'harvest-due': 'castingsKgWb',
};

/** The usual span of each quantity, the same for all bins; the marks of the signals (model, section 4). */
const USUAL: Readonly<Record<TrendQuantity, readonly [low: number, high: number]>> = {
  airlessFrac: [0, 0.25],
  moistureFracWb: [0.6, 0.83],
  bedTempC: [5, 29],
  castingsKgWb: [0, 0],
  foodInHandDays: [1, 14],
};

function trendOf(outlook: Outlook, dateOf: DateOf): TrendShape {
  const quantity = (outlook.lead && SHOWN_IN[outlook.lead]) ?? 'moistureFracWb';
  const values = outlook.history.slice(-TREND_DAYS).map((row) => ({ on: dateOf(row.day), value: row[quantity].p50 }));
  const [lowNormal, highNormal] = quantity === 'castingsKgWb' ? [0, castingsMarkKg(outlook)] : USUAL[quantity];
  return { quantity, values, lowNormal, highNormal };
}

/** The weight at which castings stand as deep as the kind's mark, by today's weight and level. */
function castingsMarkKg({ signals, now }: Outlook): number {
  const castingsKg = now.castingsKgWb.p50;
  const reason = signals.find(({ id }) => id === 'harvest-due')?.reasons.find(({ code }) => code === 'castings-deep');
  const levelM = Number(reason?.values.levelM);
  const markM = Number(reason?.values.markM);
  return levelM > 0 && markM > 0 ? (castingsKg * markM) / levelM : castingsKg;
}

const onOrNull = (day: number | null, dateOf: DateOf): string | null => (day === null ? null : dateOf(day));
