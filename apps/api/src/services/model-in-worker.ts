import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { AheadModel, Model, TrialModel } from './model.ts';
import type { ModelTask, ModelWorkerData } from './model-worker.ts';

/** Where the build puts the worker; run from the sources there is none, and the model stays in this thread. */
const WORKER_FILE = fileURLToPath(new URL('./model-worker.mjs', import.meta.url));

/** Its short-lived numbers need little room: Node would give them 48 MB, and the model is no slower with 12. */
const LIMITS = { maxYoungGenerationSizeMb: 12 } as const;
/** As long as a reader of one page after the other may take between two. */
const IDLE_MS = 60_000;

interface Waiting {
  resolve(answer: never): void;
  reject(error: Error): void;
}

export interface WorkerModel {
  readonly model: Model;
  readonly trial: TrialModel;
  readonly ahead: AheadModel;
  stop(): Promise<unknown>;
}

/**
 * The model in a thread of its own, started at the first question and again after a crash. Asked nothing for a while it is
 * let go, with its memory: what it worked out stands in its cache.
 *
 * @param cacheFile Where it keeps its runs between starts; null keeps none
 * @returns null when there is no worker to start
 */
export function modelInWorker(cacheFile: string | null = null, file: string = WORKER_FILE, idleMs = IDLE_MS): WorkerModel | null {
  if (!existsSync(file)) return null;
  const waiting = new Map<number, Waiting>();
  let worker: Worker | null = null;
  let number = 0;
  let idle: NodeJS.Timeout | undefined;

  const rest = () => {
    clearTimeout(idle);
    if (waiting.size > 0) return;
    idle = setTimeout(() => {
      const unasked = worker;
      worker = null;
      unasked?.removeAllListeners().on('error', () => undefined);
      void unasked?.terminate();
    }, idleMs).unref();
  };
  const fail = (error: Error) => {
    worker = null;
    for (const { reject } of waiting.values()) reject(error);
    waiting.clear();
  };
  const take = ({ number: done, answer, fault }: { number: number; answer?: unknown; fault?: string }) => {
    const asked = waiting.get(done);
    waiting.delete(done);
    if (answer === undefined) asked?.reject(new Error(fault));
    else asked?.resolve(answer as never);
    rest();
  };
  const started = (): Worker => {
    if (worker !== null) return worker;
    worker = new Worker(file, { workerData: { cacheFile } satisfies ModelWorkerData, resourceLimits: LIMITS });
    worker.on('message', take);
    worker.on('error', fail);
    worker.on('exit', () => fail(new Error('Cannot work an outlook out as its thread ended: current value is no thread')));
    // A question asked keeps nobody from stopping.
    worker.unref();
    return worker;
  };

  const ask = <T>(question: Omit<ModelTask, 'number'>): Promise<T> =>
    new Promise((resolve, reject) => {
      clearTimeout(idle);
      number += 1;
      waiting.set(number, { resolve, reject });
      started().postMessage({ ...question, number } satisfies ModelTask);
    });

  return {
    model: (scenario, today, settings) => ask({ scenario, today, settings }),
    trial: (scenario, today, settings, trial) => ask({ scenario, today, settings, trial }),
    ahead: {
      ensembleOf: (scenario, today, settings) => ask({ scenario, today, settings, ahead: 'ensemble' }),
      whatIfOf: (scenario, today, settings, choice) => ask({ scenario, today, settings, ahead: choice }),
    },
    stop: async () => {
      clearTimeout(idle);
      return worker?.terminate();
    },
  };
}
