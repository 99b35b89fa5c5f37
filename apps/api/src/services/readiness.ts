import { statfsSync } from 'node:fs';
import type { Frame } from '../context.ts';
import { probeStore } from '../db/repositories/probe.ts';

const KEPT_MS = 5000;
/** Below this a commit may fail at any moment. */
const LEAST_FREE_BYTES = 8 * 1024 * 1024;

export type NotReady = 'store' | 'disk';
interface Verdict {
  readonly atMs: number;
  readonly reason: NotReady | null;
}
const verdicts = new WeakMap<Frame['store'], Verdict>();

/** Why this process should get no requests, or null; asked of the store at most every five seconds. */
export function readiness({ store, clock, config }: Frame): NotReady | null {
  const atMs = clock.now().getTime();
  const kept = verdicts.get(store);
  if (kept !== undefined && atMs - kept.atMs >= 0 && atMs - kept.atMs < KEPT_MS) return kept.reason;
  const reason = !probeStore(store) ? 'store' : !hasRoom(config.dataDir) ? 'disk' : null;
  verdicts.set(store, { atMs, reason });
  return reason;
}

function hasRoom(dir: string): boolean {
  const { bavail, bsize } = statfsSync(dir);
  return bavail * bsize >= LEAST_FREE_BYTES;
}
