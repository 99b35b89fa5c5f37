import { refuse } from '../refusal.ts';

/** How often somebody may ask; kept in memory, since after a restart nobody has asked. */
export interface RateKeeper {
  /** 0: go ahead, and it counts; else how long until the next one may. */
  waitMs(key: string, nowMs: number): number;
}

const MOST_KEYS = 5000;

/** `most` in any span of `perMs`, counted in spans that begin with the first of them. */
export function rateKeeper({ most, perMs }: { readonly most: number; readonly perMs: number }): RateKeeper {
  const spans = new Map<string, { fromMs: number; count: number }>();
  return {
    waitMs(key, nowMs) {
      const span = spans.get(key);
      // A clock that was put back must not lock anybody out.
      if (span === undefined || nowMs - span.fromMs >= perMs || nowMs < span.fromMs) {
        if (spans.size >= MOST_KEYS) spans.clear();
        spans.set(key, { fromMs: nowMs, count: 1 });
        return 0;
      }
      if (span.count >= most) return span.fromMs + perMs - nowMs;
      span.count += 1;
      return 0;
    },
  };
}

/** Counts one more asking, or refuses and says how long to wait. */
export function refuseOften(rate: RateKeeper, key: string, now: Date): void {
  const waitMs = rate.waitMs(key, now.getTime());
  if (waitMs > 0) throw refuse('wait', { retryAfterSeconds: Math.ceil(waitMs / 1000) });
}
