/** The model's memory in a file: what it keeps, under a text that says all that it rests on. */
import { createHash } from 'node:crypto';
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { type BandsBefore, type DayRow, encodeCheckpoint, type RunMemory, restoreRun, restsOn, type Scenario } from '@middenry/domain';
import type { CachedRun, RunCache } from '../db/run-cache.ts';
import { isWanted, keepDays, tracksKept } from './keep-days.ts';
import { rowFromBytes, rowToBytes } from './row-bytes.ts';

const SWIFT = { level: 1 } as const;

interface Taken {
  readonly run: Omit<CachedRun, 'state' | 'restsOn'>;
  readonly doubles: Float64Array;
}

export interface FileMemory extends RunMemory {
  /** Writes what was kept of the run that ended; called after the answer is on its way. */
  flush(): void;
  /** The bands of yesterday, as they were told by the same log; null when nobody asked then. */
  lookBefore(): BandsBefore | null;
  /** Keeps today's bands for tomorrow. */
  keepLook(bands: BandsBefore): void;
}

/**
 * The memory of one bin for one question.
 *
 * @param version Changes with the program: what another one worked out is not gone on from
 */
export function fileMemory(cache: RunCache, scenario: Scenario, today: number, version: string): FileMemory {
  const bin = scenario.seed;
  const keys = keysOf(scenario, today, version);
  let fromDay = -1;
  let passed: readonly DayRow[] = [];
  const taken: Taken[] = [];
  return {
    keepDays: (before) => keepDays(before, fromDay < 0),
    recall: (asked, before, tracksFromDay) => {
      const found = cache
        .runsBefore(bin, before)
        .find((run) => run.restsOn === keys[run.day] && Math.max(0, run.tracksFromDay) <= tracksFromDay);
      if (!found) return null;
      const rows = cache.rowsUntil(bin, found.day);
      if (rows.length !== found.day + 1) return null;
      const run = restoreRun(asked, doublesOf(cache.stateOf(bin, found)));
      run.rows.push(...rows.map(({ day, quantities }) => rowFromBytes(day, quantities)));
      run.surprises.push(...JSON.parse(found.surprises));
      fromDay = found.day;
      return run;
    },
    keep: (run) => {
      passed = run.rows.slice();
      for (const days of tracksKept(run.day, today)) {
        const tracksFromDay = run.day - Math.min(days, run.day + 1) + 1;
        taken.push({
          run: { day: run.day, tracksFromDay, surprises: JSON.stringify(run.surprises) },
          doubles: encodeCheckpoint(run, days),
        });
      }
    },
    lookBefore: () => {
      const look = cache.lookOn(bin, today - 1);
      return look !== undefined && look.restsOn === keys[today - 1] ? (JSON.parse(look.bands) as BandsBefore) : null;
    },
    keepLook: (bands) => cache.saveLook(bin, today, { restsOn: keys[today] as string, bands: JSON.stringify(bands) }),
    flush: () => {
      if (taken.length === 0) return;
      // Of a bin that has some already, new runs take the place of old ones.
      if (cache.isFull() && cache.runsBefore(bin, today).length === 0) return;
      const rows = passed.filter(({ day }) => day > fromDay).map((row) => ({ day: row.day, quantities: rowToBytes(row) }));
      const runs = taken.map(({ run, doubles }) => ({ ...run, restsOn: keys[run.day] as string, state: bytesOf(doubles) }));
      cache.save(bin, fromDay, { runs, rows });
      cache.drop(
        bin,
        cache.runsBefore(bin, today).filter((run) => !isWanted(run, today)),
      );
    },
  };
}

/** keys[day]: all that the run rests on up to the end of a day, as a hash that goes on from the day before. */
function keysOf(scenario: Scenario, today: number, version: string): readonly string[] {
  const hash = createHash('sha256').update(version);
  const [start = '', ...days] = restsOn(scenario, today);
  hash.update(start);
  return days.map((line) => hash.update('\n').update(line).copy().digest('base64'));
}

const bytesOf = (doubles: Float64Array): Buffer =>
  deflateRawSync(new Uint8Array(doubles.buffer, doubles.byteOffset, doubles.byteLength), SWIFT);

function doublesOf(bytes: Buffer): Float64Array {
  const flat = inflateRawSync(bytes);
  // A slice begins at a whole double, which a pooled buffer need not.
  return new Float64Array(flat.buffer.slice(flat.byteOffset, flat.byteOffset + flat.byteLength));
}
