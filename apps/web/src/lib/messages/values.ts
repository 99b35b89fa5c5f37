import type { Format } from '../format/format.ts';
import { span } from '../format/span.ts';
import type { Reading } from './given.ts';

export type { Reading } from './given.ts';

export type Values = Readonly<Record<string, number | string>>;

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
    days: by((n) => span(n, f)),
    foodDays: by(f.foodDays),
    number: (name, digits = 0) => {
      const n = num(name);
      return n === null ? null : f.number(n, digits);
    },
    text: (name) => (typeof values[name] === 'string' ? values[name] : null),
    day: typeof day === 'string' ? day : null,
  };
}
