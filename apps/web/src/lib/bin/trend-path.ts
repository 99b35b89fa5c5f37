import { dayNumber } from '../format/days.ts';
import type { Trend } from './types.ts';

/** One scale per quantity on all bins, so that two trends can be compared by eye: [low, high]. */
const SCALES: Readonly<Record<Trend['quantity'], readonly [number, number]>> = {
  airlessFrac: [0, 0.6],
  moistureFracWb: [0.5, 0.95],
  foodInHandDays: [0, 28],
  bedTempC: [0, 35],
  castingsKgWb: [0, 40],
};
const WEEKS_DAYS = 56;
const WIDTH = 128;
const TOP = 2;
const BOTTOM = 26;

export interface TrendPaths {
  readonly normal: string;
  readonly line: string;
  readonly gap: string | null;
  readonly dot: string | null;
}

/** Paths of an eight-week line in a 128 x 28 box; a stretch nobody saw is dotted from the last known value. */
export function trendPaths(trend: Trend, today: string, lastSeenOn: string | null): TrendPaths {
  const [low, high] = SCALES[trend.quantity];
  const last = dayNumber(today);
  const x = (day: string) => WIDTH * Math.min(1, Math.max(0, 1 - (last - dayNumber(day)) / WEEKS_DAYS));
  const y = (value: number) => BOTTOM - (BOTTOM - TOP) * Math.min(1, Math.max(0, (value - low) / (high - low)));
  const n = (value: number) => String(Math.round(value * 10) / 10);
  const normal = `M0 ${n(y(trend.highNormal))}H${WIDTH}V${n(y(trend.lowNormal))}H0Z`;
  const inside = trend.values.filter((v) => last - dayNumber(v.on) <= WEEKS_DAYS);
  const known = lastSeenOn === null ? inside : inside.filter((v) => v.on <= lastSeenOn);
  const end = known.at(-1);
  if (end === undefined) return { normal, line: '', gap: null, dot: null };
  const line = `M${known.map((v) => `${n(x(v.on))} ${n(y(v.value))}`).join('L')}`;
  const gap = known.length < inside.length ? `M${n(x(end.on))} ${n(y(end.value))}H${WIDTH}` : null;
  return { normal, line, gap, dot: `M${n(x(end.on))} ${n(y(end.value))}h0.01` };
}

/** Which way the last three weeks went, and where that leaves it. */
export function trendWay(trend: Trend): { way: 'rising' | 'falling' | 'level'; place: 'above' | 'below' | 'within'; value: number } {
  const end = trend.values.at(-1)?.value ?? 0;
  const before = trend.values.at(-22)?.value ?? trend.values[0]?.value ?? end;
  const [low, high] = SCALES[trend.quantity];
  const move = (end - before) / (high - low);
  return {
    way: move > 0.05 ? 'rising' : move < -0.05 ? 'falling' : 'level',
    place: end > trend.highNormal ? 'above' : end < trend.lowNormal ? 'below' : 'within',
    value: end,
  };
}
