import { setPriority } from 'node:os';
import { parentPort, threadId, workerData } from 'node:worker_threads';
import { copyStore } from './copy.ts';
import { drill } from './restore.ts';
import { proofOf } from './verify.ts';

/** What is read and written whole is done in a thread of its own, so that nobody's request waits for it (criteria F8). */
export type KeepTask =
  | { readonly task: 'copy'; readonly source: string; readonly part: string }
  | { readonly task: 'prove'; readonly file: string }
  | { readonly task: 'drill'; readonly backup: string; readonly migrationsDir: string; readonly now: Date };

const GIVES_WAY = 10;

async function done(task: KeepTask): Promise<unknown> {
  if (task.task === 'drill') return drill(task.backup, task.migrationsDir, task.now);
  if (task.task === 'prove') return proofOf(task.file);
  await copyStore(task.source, task.part);
  return proofOf(task.part);
}

// On Linux this is of the thread alone; elsewhere it would slow the whole server.
if (process.platform === 'linux') setPriority(0, GIVES_WAY);
try {
  parentPort?.postMessage({ answer: await done(workerData as KeepTask), thread: threadId });
} catch (error) {
  parentPort?.postMessage({ fault: (error as Error).message, thread: threadId });
}
