/** How much of the memory whole outlooks may take: what was asked for longest ago makes room (criteria F24, F27). */
import type { Outlook } from '@middenry/domain';

/** Measured on outlooks of 84 days as they come back from the worker: 255 kB each, 41 kB of it beside the days' rows. */
const ROW_BYTES = 2200;
const OTHER_BYTES = 41_000;
/** Some 250 bins; four times the sixty that one programme is made for. */
export const OUTLOOK_BYTES = 64_000_000;

export const bytesOf = ({ history, forecast }: Outlook): number => (history.length + forecast.length) * ROW_BYTES + OTHER_BYTES;

export interface Budget {
  /** Notes that it was asked for just now; those that no longer fit are told to let go. */
  use(id: string, bytes: number, letGo: () => void): void;
  forget(id: string): void;
}

export function budgetOf(mostBytes = OUTLOOK_BYTES): Budget {
  const used = new Map<string, { readonly bytes: number; readonly letGo: () => void }>();
  let total = 0;
  const forget = (id: string): void => {
    total -= used.get(id)?.bytes ?? 0;
    used.delete(id);
  };
  return {
    forget,
    use: (id, bytes, letGo) => {
      forget(id);
      used.set(id, { bytes, letGo });
      total += bytes;
      for (const [oldest, { letGo: letOldestGo }] of used) {
        if (total <= mostBytes || oldest === id) break;
        forget(oldest);
        letOldestGo();
      }
    },
  };
}
