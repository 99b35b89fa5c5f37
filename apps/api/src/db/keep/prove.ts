import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { type Proof, proofOf } from './verify.ts';

/** Where the build puts the worker; run from the sources there is none, and the file is read in this thread. */
const WORKER_FILE = fileURLToPath(new URL('./proof-worker.mjs', import.meta.url));

/**
 * Checks a store's file whole without holding up anybody's request.
 *
 * @param options mayBeLeft: the process may end before the answer, as nobody counts on it; a backup is none before it was read
 * @throws {Error} saying what is wrong with it
 */
export async function prove(file: string, { mayBeLeft = false }: { readonly mayBeLeft?: boolean } = {}): Promise<Proof> {
  if (!existsSync(WORKER_FILE)) return proofOf(file);
  const { proof, fault } = await new Promise<{ proof?: Proof; fault?: string }>((resolve, reject) => {
    const worker = new Worker(WORKER_FILE, { workerData: file });
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', () => reject(new Error(`The check of ${file} ended without an answer.`)));
    if (mayBeLeft) worker.unref();
  });
  if (proof === undefined) throw new Error(fault);
  return proof;
}
