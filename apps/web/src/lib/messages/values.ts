import type { Format } from '../format/format.ts';

export type Values = Readonly<Record<string, number | string>>;

/** Reads the values of a reason by name and by what they are; a missing one is null, and the sentence does without. */
export interface Reading {
  readonly zone: string | null;
  mass(name: string): string | null;
  depth(name: string): string | null;
  temp(name: string): string | null;
  percent(name: string): string | null;
  days(name: string): string | null;
  foodDays(name: string): string | null;
  number(name: string, digits?: number): string | null;
  text(name: string): string | null;
  /** The first value whose name says it is a local date. */
  readonly day: string | null;
}

export function readValues(values: Values, f: Format): Reading {
  const num = (name: string) => (typeof values[name] === 'number' ? values[name] : null);
  const by = (render: (n: number) => string) => (name: string) => {
    const n = num(name);
    return n === null ? null : render(n);
  };
  const day = Object.entries(values).find(([key, value]) => /(^on|On)$/.test(key) && typeof value === 'string')?.[1];
  const zone = num('zone');
  return {
    zone: zone === null ? null : f.number(zone),
    mass: by(f.mass),
    depth: by(f.depth),
    temp: by(f.temp),
    percent: by(f.percent),
    days: by(f.days),
    foodDays: by(f.foodDays),
    number: (name, digits = 0) => {
      const n = num(name);
      return n === null ? null : f.number(n, digits);
    },
    text: (name) => (typeof values[name] === 'string' ? values[name] : null),
    day: typeof day === 'string' ? day : null,
  };
}
