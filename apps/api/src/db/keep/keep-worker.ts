import { setPriority } from 'node:os';
import { parentPort, threadId, workerData } from 'node:worker_threads';
import { copyStore } from './copy.ts';
import { drill } from './restore.ts';
import { checkSound, proofOf } from './verify.ts';

/** What is read and written whole is done in a thread of its own, so that nobody's request waits for it (criteria F8). */
export type KeepTask =
  | { readonly task: 'copy'; readonly source: string; readonly part: string }
  | { readonly task: 'prove'; readonly file: string }
  | { readonly task: 'check'; readonly file: string }
  | { readonly task: 'drill'; readonly backup: string; readonly migrationsDir: string; readonly now: Date };

const GIVES_WAY = 10;

async function done(task: KeepTask): Promise<unknown> {
  if (task.task === 'drill') return drill(task.backup, task.migrationsDir, task.now);
  if (task.task === 'prove') return proofOf(task.file);
  if (task.task === 'check') return checkSound(task.file);
  await copyStore(task.source, task.part);
  return proofOf(task.part);
}

const asked = workerData as KeepTask;
// On Linux this is of the thread alone; elsewhere it would slow the whole server. For a check somebody waits.
if (process.platform === 'linux' && asked.task !== 'check') setPriority(0, GIVES_WAY);
try {
  parentPort?.postMessage({ answer: await done(asked), thread: threadId });
} catch (error) {
  parentPort?.postMessage({ fault: (error as Error).message, thread: threadId });
}
