import { parentPort, workerData } from 'node:worker_threads';
import { proofOf } from './verify.ts';

/** Reads a file whole in a thread of its own, so that nobody's request waits for it. */
try {
  parentPort?.postMessage({ proof: proofOf(String(workerData)) });
} catch (error) {
  parentPort?.postMessage({ fault: (error as Error).message });
}
