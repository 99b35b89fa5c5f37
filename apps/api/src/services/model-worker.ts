/** Runs in a thread of its own: works outlooks out so that the server goes on answering meanwhile. */
import { parentPort, workerData } from 'node:worker_threads';
import type { BinEvent, OutlookSettings, Scenario, WhatIfChoice } from '@middenry/domain';
import { type Rememberer, rememberer } from '../model/rememberer.ts';

export interface ModelTask {
  readonly number: number;
  readonly scenario: Scenario;
  readonly today: number;
  readonly settings: OutlookSettings;
  /** Set: only the chance of trouble under these is asked for. */
  readonly trial?: readonly BinEvent[];
  /** Set: only the bin as it stands is asked for, or what would come of a choice. */
  readonly ahead?: 'ensemble' | WhatIfChoice;
}

/** What the thread is started with. */
export interface ModelWorkerData {
  /** Where runs are kept between starts; null keeps none. */
  readonly cacheFile: string | null;
}

const { cacheFile } = (workerData ?? { cacheFile: null }) as ModelWorkerData;
const model: Rememberer = rememberer(cacheFile, import.meta.url);

parentPort?.on('message', ({ number, scenario, today, settings, trial, ahead }: ModelTask) => {
  try {
    if (trial) {
      parentPort?.postMessage({ number, answer: model.troubleOf(scenario, today, settings, trial) });
      return;
    }
    if (ahead) {
      const told =
        ahead === 'ensemble' ? model.ahead.ensembleOf(scenario, today, settings) : model.ahead.whatIfOf(scenario, today, settings, ahead);
      parentPort?.postMessage({ number, answer: told });
      return;
    }
    const { outlook, keep } = model.outlookOf(scenario, today, settings);
    parentPort?.postMessage({ number, answer: outlook });
    // The answer is on its way before anything is written.
    keep();
  } catch (error) {
    parentPort?.postMessage({ number, fault: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
});
