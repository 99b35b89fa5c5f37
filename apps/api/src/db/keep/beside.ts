/** The long work on whole files, beside the server's own thread. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { copyStore } from './copy.ts';
import type { KeepTask } from './keep-worker.ts';
import { drill } from './restore.ts';
import { checkSound, type Proof, proofOf } from './verify.ts';

/** Where the build puts the worker; run from the sources there is none, and the work is done in this thread. */
const WORKER_FILE = fileURLToPath(new URL('./keep-worker.mjs', import.meta.url));

interface Told<T> {
  readonly answer?: T;
  readonly fault?: string;
  /** Number of the thread that did it. */
  readonly thread: number;
}

/**
 * @param mayBeLeft The process may end before the answer, as nobody counts on it
 * @throws {Error} saying what went wrong there
 */
export async function inWorker<T>(
  task: KeepTask,
  file: string,
  mayBeLeft = false,
): Promise<{ readonly answer: T; readonly thread: number }> {
  const { answer, fault, thread } = await new Promise<Told<T>>((resolve, reject) => {
    const worker = new Worker(file, { workerData: task });
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', () => reject(new Error(`The work on the store (${task.task}) ended without an answer.`)));
    if (mayBeLeft) worker.unref();
  });
  if (answer === undefined) throw new Error(fault);
  return { answer, thread };
}

const isBuilt = (): boolean => existsSync(WORKER_FILE);

/** Copies a store in use and reads the copy back whole. */
export async function copyAndProve(source: string, part: string): Promise<Proof> {
  if (isBuilt()) return (await inWorker<Proof>({ task: 'copy', source, part }, WORKER_FILE)).answer;
  await copyStore(source, part);
  return proofOf(part);
}

/**
 * Checks a store's file whole.
 *
 * @param options mayBeLeft: the process may end before the answer, as nobody counts on it; a backup is none before it was read
 * @throws {Error} saying what is wrong with it
 */
export async function prove(file: string, { mayBeLeft = false }: { readonly mayBeLeft?: boolean } = {}): Promise<Proof> {
  return isBuilt() ? (await inWorker<Proof>({ task: 'prove', file }, WORKER_FILE, mayBeLeft)).answer : proofOf(file);
}

/**
 * Reads a store's file whole, for an answer that waits for it.
 *
 * @throws {Error} saying what is wrong with it
 */
export async function check(file: string): Promise<void> {
  if (isBuilt()) await inWorker<true>({ task: 'check', file }, WORKER_FILE, true);
  else checkSound(file);
}

/** Tries out a backup; what it says is for people. */
export async function drillBeside(backup: string, migrationsDir: string, now: Date): Promise<ReturnType<typeof drill>> {
  if (!isBuilt()) return drill(backup, migrationsDir, now);
  return (await inWorker<ReturnType<typeof drill>>({ task: 'drill', backup, migrationsDir, now }, WORKER_FILE, true)).answer;
}
