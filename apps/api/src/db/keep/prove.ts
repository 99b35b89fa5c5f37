import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { type Proof, proofOf } from './verify.ts';

/** Where the build puts the worker; run from the sources there is none, and the file is read in this thread. */
const WORKER_FILE = fileURLToPath(new URL('./proof-worker.mjs', import.meta.url));

/**
 * Checks a store's file whole without holding up anybody's request.
 *
 * @throws {Error} saying what is wrong with it
 */
export async function prove(file: string, workerFile: string = WORKER_FILE): Promise<Proof> {
  if (!existsSync(workerFile)) return proofOf(file);
  const { proof, fault } = await new Promise<{ proof?: Proof; fault?: string }>((resolve, reject) => {
    const worker = new Worker(workerFile, { workerData: file });
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', () => reject(new Error(`The check of ${file} ended without an answer.`)));
    // A check keeps nobody from stopping.
    worker.unref();
  });
  if (proof === undefined) throw new Error(fault);
  return proof;
}
