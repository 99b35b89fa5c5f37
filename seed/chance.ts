/** Chance from a seed: the same demonstration on every machine. */
export interface Chance {
  /** 0 up to but not 1. */
  next(): number;
  /** A whole number of the span, both ends included. */
  whole(low: number, high: number): number;
  between(low: number, high: number): number;
  happens(probability: number): boolean;
  pick<T>(from: readonly T[]): T;
  /** UUIDv7 of an instant. */
  id(at: Date): string;
}

/** A text seeds its own stream, so that one bin's story does not move when another's is changed. */
export function chanceOf(seed: string): Chance {
  let state = hashOf(seed);
  const next = (): number => {
    // mulberry32, public domain
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const whole = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1));
  return {
    next,
    whole,
    between: (low, high) => low + next() * (high - low),
    happens: (probability) => next() < probability,
    pick: (from) => from[Math.floor(next() * from.length)]!,
    id: (at) => idOf(at, () => whole(0, 15)),
  };
}

function idOf(at: Date, digit: () => number): string {
  const time = at.getTime().toString(16).padStart(12, '0');
  const hex = (count: number) => Array.from({ length: count }, () => digit().toString(16)).join('');
  const variant = (8 + (digit() % 4)).toString(16);
  return `${time.slice(0, 8)}-${time.slice(8)}-7${hex(3)}-${variant}${hex(3)}-${hex(12)}`;
}

/** FNV-1a, 32 bits. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (const letter of text) hash = Math.imul(hash ^ letter.codePointAt(0)!, 0x01000193);
  return hash | 0;
}
