/** Runs in a thread of its own: works outlooks out so that the server goes on answering meanwhile. */
import { parentPort } from 'node:worker_threads';
import { type OutlookSettings, outlookOf, type Scenario } from '@middenry/domain';

export interface ModelTask {
  readonly number: number;
  readonly scenario: Scenario;
  readonly today: number;
  readonly settings: OutlookSettings;
}

parentPort?.on('message', ({ number, scenario, today, settings }: ModelTask) => {
  try {
    parentPort?.postMessage({ number, outlook: outlookOf(scenario, today, settings) });
  } catch (error) {
    parentPort?.postMessage({ number, fault: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
});
