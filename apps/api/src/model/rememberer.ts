/** The model with its memory: a memory that fails is let go of, and the model goes on without. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  type BandsBefore,
  type BinEvent,
  bandsFor,
  ensembleOf,
  type Outlook,
  type OutlookSettings,
  outlookOf,
  type Scenario,
  signalBandsOn,
  trialOf,
} from '@middenry/domain';
import { openRunCache, type RunCache, removeRunCache } from '../db/run-cache.ts';
import { type Ahead, aheadOf } from './ahead.ts';
import { lastTrial } from './last-trial.ts';
import { type FileMemory, fileMemory } from './run-memory.ts';
import { toldBefore } from './told-before.ts';

export interface Rememberer {
  outlookOf(scenario: Scenario, today: number, settings: OutlookSettings): { readonly outlook: Outlook; readonly keep: () => void };
  troubleOf(scenario: Scenario, today: number, settings: OutlookSettings, events: readonly BinEvent[]): number;
  readonly ahead: Ahead;
  close(): void;
}

/**
 * @param cacheFile Where runs are kept; null keeps none
 * @param programUrl The file that holds the program, or names the files that do: other contents, other figures
 */
export function rememberer(cacheFile: string | null, programUrl: string): Rememberer {
  const version = createHash('sha256')
    .update(readFileSync(fileURLToPath(programUrl)))
    .digest('base64');
  let cache = cacheFile === null ? null : openedOrNull(cacheFile);
  const letGo = (): void => {
    cache?.close();
    cache = null;
    if (cacheFile !== null) removeRunCache(cacheFile);
  };
  const remembered = (scenario: Scenario, today: number) =>
    cache === null ? undefined : careful(fileMemory(cache, scenario, today, version), letGo);
  const trial = lastTrial((scenario, today, settings) => trialOf(scenario, today, settings, remembered(scenario, today)));
  const ahead = aheadOf((scenario, today, settings) => ensembleOf(scenario, today, settings, remembered(scenario, today)));
  return {
    outlookOf: (scenario, today, settings) => {
      const told = cache === null ? null : toldBefore(cache, letGo, [version, scenario, today, settings]);
      if (told?.outlook) return { outlook: told.outlook, keep: () => undefined };
      const memoryOn = (day: number) => (cache === null ? null : careful(fileMemory(cache, scenario, day, version), letGo));
      const memory = memoryOn(today);
      const bandsBefore = memory?.lookBefore() ?? yesterdaysBands(scenario, today, settings, memoryOn);
      const outlook = outlookOf(scenario, today, { ...settings, bandsBefore }, memory ?? undefined);
      const keep = () => {
        memory?.flush();
        memory?.keepLook(bandsFor(outlook.signals));
        if (cache !== null) told?.keep(outlook);
      };
      return { outlook, keep };
    },
    troubleOf: (scenario, today, settings, events) => trial(scenario, today, settings)(events),
    ahead,
    close: () => cache?.close(),
  };
}

/** A band moves when two days running ask for it, so where nobody asked yesterday, yesterday is looked at now. */
function yesterdaysBands(
  scenario: Scenario,
  today: number,
  settings: OutlookSettings,
  memoryOn: (day: number) => FileMemory | null,
): BandsBefore {
  if (today <= 0) return {};
  const memory = memoryOn(today - 1);
  const log = { ...scenario, events: scenario.events.filter((event) => event.day < today) };
  const bands = signalBandsOn(log, today - 1, settings, memory ?? undefined);
  memory?.flush();
  memory?.keepLook(bands);
  return bands;
}

function openedOrNull(file: string): RunCache | null {
  try {
    return openRunCache(file);
  } catch {
    return null;
  }
}

/** No fault of the memory reaches whoever asked: a damaged file or a full disk makes the next answer slower, not wrong. */
function careful(memory: FileMemory, letGo: () => void): FileMemory {
  let isBroken = false;
  const trying = <T>(work: () => T, otherwise: T): T => {
    if (isBroken) return otherwise;
    try {
      return work();
    } catch {
      isBroken = true;
      letGo();
      return otherwise;
    }
  };
  return {
    keepDays: memory.keepDays,
    recall: (...asked) => trying(() => memory.recall(...asked), null),
    keep: (run) => trying(() => memory.keep(run), undefined),
    flush: () => trying(() => memory.flush(), undefined),
    lookBefore: () => trying(() => memory.lookBefore(), null),
    keepLook: (bands) => trying(() => memory.keepLook(bands), undefined),
  };
}
