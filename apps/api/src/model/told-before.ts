/** The last outlook of each bin, kept between starts: whoever opens the board after one need not wait for what was told before it. */
import { createHash } from 'node:crypto';
import { deserialize, serialize } from 'node:v8';
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import type { Outlook, OutlookSettings, Scenario } from '@middenry/domain';
import type { RunCache } from '../db/run-cache.ts';

const SWIFT = { level: 1 } as const;

/** All that an outlook is worked out from: the program, the bin's log, the day, and what is asked of it. */
type Question = readonly [version: string, scenario: Scenario, today: number, settings: OutlookSettings];

/** A scenario is text by its schema (`middenry-scenario/1`); what text would leave out must not look the same. */
const textOf = (question: Question): string =>
  JSON.stringify(question, (name, value) => {
    if (value instanceof Map || value instanceof Set)
      throw new TypeError(`Cannot name a question by its text: current value of ${name} is no plain data`);
    return value;
  });

export interface ToldBefore {
  /** Set when the very same was asked the last time. */
  readonly outlook: Outlook | undefined;
  keep(outlook: Outlook): void;
}

/**
 * Looks whether the same was told before. No fault of the file reaches whoever asked.
 *
 * @param letGo Called when the file cannot be read or written; nothing is asked of it again
 */
export function toldBefore(cache: RunCache, letGo: () => void, question: Question): ToldBefore | null {
  try {
    const bin = question[1].seed;
    const restsOn = createHash('sha256').update(textOf(question)).digest('base64');
    const last = cache.toldOf(bin);
    return {
      outlook: last?.restsOn === restsOn ? deserialize(inflateRawSync(last.outlook)) : undefined,
      keep: (outlook) => {
        try {
          if (last === undefined && cache.isFull()) return;
          cache.saveTold(bin, { restsOn, outlook: deflateRawSync(serialize(outlook), SWIFT) });
        } catch {
          letGo();
        }
      },
    };
  } catch {
    letGo();
    return null;
  }
}
