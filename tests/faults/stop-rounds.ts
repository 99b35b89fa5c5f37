import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { serve } from '../browser/harness.ts';
import { enterDemo, type Feeding, feedPast, missing } from './feeders.ts';
import { soundness } from './stage.ts';

export interface StopResult {
  readonly acknowledged: number;
  readonly refused: number;
  readonly longestMs: number;
  /** Everything that was lost, broken off or left behind, in words. */
  readonly faults: string[];
}

/** What a stop left behind that it should not have. */
function leftBehind(dataDir: string, exitCode: number | null): string[] {
  const wal = join(dataDir, 'demo.db-wal');
  const walBytes = existsSync(wal) ? statSync(wal).size : 0;
  const { integrity, strays, halves } = soundness(dataDir);
  return [
    ...(exitCode === 0 ? [] : [`exit ${exitCode}`]),
    ...(walBytes === 0 ? [] : [`${walBytes} bytes of log beside the store`]),
    ...(integrity === 'ok' ? [] : [`integrity: ${integrity}`]),
    ...(strays.length === 0 ? [] : [`${strays.length} rows point at nothing`]),
    ...(halves === 0 ? [] : [`${halves} feedings without food`]),
  ];
}

/** F23: a server under load is stopped with SIGTERM, again and again, on one data folder. */
export async function stopRounds(dataDir: string, rounds: number): Promise<StopResult> {
  const faults: string[] = [];
  let before: { readonly acknowledged: readonly Feeding[]; readonly unknown: readonly Feeding[] } = { acknowledged: [], unknown: [] };
  let [acknowledged, refused, longestMs] = [0, 0, 0];
  for (let round = 0; round <= rounds; round += 1) {
    const say = (found: readonly string[]) => faults.push(...found.map((what) => `round ${round}: ${what}`));
    const server = await serve({ dataDir, keepData: true });
    const cookie = await enterDemo(server.origin);
    say((await missing(server.origin, cookie, before.acknowledged)).map((what) => `lost ${what}`));
    // Whoever found the door closed was not taken; whoever was taken must have had an answer.
    const cut = before.unknown.length - (await missing(server.origin, cookie, before.unknown)).length;
    if (cut > 0) say([`${cut} taken whose answer was cut off`]);
    const feeding = round < rounds ? await feedPast(server.origin, cookie, 25) : undefined;
    const since = performance.now();
    await server.stop('SIGTERM');
    longestMs = Math.max(longestMs, performance.now() - since);
    say(leftBehind(dataDir, server.exitCode()));
    if (feeding === undefined) break;
    const sent = await feeding.sent;
    for (const { status, retryAfter } of sent.refused)
      if (status !== 503 || !/^\d+$/.test(retryAfter ?? '')) say([`refused with ${status}, Retry-After ${retryAfter}`]);
    before = sent;
    acknowledged += sent.acknowledged.length;
    refused += sent.refused.length;
  }
  return { acknowledged, refused, longestMs, faults };
}
