import { statfsSync } from 'node:fs';
import type { Frame } from '../context.ts';
import { probeStore, schemaOf } from '../db/repositories/probe.ts';

const KEPT_MS = 5000;
/** Below this a commit may fail at any moment. */
const LEAST_FREE_BYTES = 8 * 1024 * 1024;

/** `schema`: another program has changed the store since this one opened it. */
export type NotReady = 'store' | 'schema' | 'disk';
interface Verdict {
  readonly atMs: number;
  readonly reason: NotReady | null;
}
const verdicts = new WeakMap<Frame['store'], Verdict>();

/** Why this process should get no requests, or null; asked of the store at most every five seconds. */
export function readiness({ store, clock, config, schema }: Frame): NotReady | null {
  const atMs = clock.now().getTime();
  const kept = verdicts.get(store);
  if (kept !== undefined && atMs - kept.atMs >= 0 && atMs - kept.atMs < KEPT_MS) return kept.reason;
  const reason = reasonNow(store, schema, config.dataDir);
  verdicts.set(store, { atMs, reason });
  return reason;
}

function reasonNow(store: Frame['store'], schema: number, dataDir: string): NotReady | null {
  if (!probeStore(store)) return 'store';
  if (schemaOf(store) !== schema) return 'schema';
  return hasRoom(dataDir) ? null : 'disk';
}

function hasRoom(dir: string): boolean {
  const { bavail, bsize } = statfsSync(dir);
  return bavail * bsize >= LEAST_FREE_BYTES;
}
