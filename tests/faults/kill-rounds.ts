import { setTimeout as sleep } from 'node:timers/promises';
import { serve } from '../browser/harness.ts';
import { ask, enterDemo, type Feeding, feedPast, missing } from './feeders.ts';
import { soundness } from './stage.ts';

export interface KillResult {
  readonly acknowledged: number;
  /** Broken off by the kill, sent again afterwards with the same id. */
  readonly sentAgain: number;
  /** Everything that was lost, half done or doubled, in words. */
  readonly faults: string[];
}

/** Sends again what was broken off: each must be taken now, once, whether or not it had been taken before. */
async function sendAgain(origin: string, cookie: string, feedings: readonly Feeding[]): Promise<string[]> {
  const found: string[] = [];
  for (const body of [...feedings, ...feedings]) {
    const { status, text } = await ask(origin, 'POST', '/api/feedings', { cookie, body });
    if (status !== 200 && status !== 201) found.push(`sent again ${body.id}: ${status} ${text}`);
  }
  return [...found, ...(await missing(origin, cookie, feedings))];
}

/** F3: a server under load is killed with SIGKILL at a random moment, again and again, on one data folder. */
export async function killRounds(dataDir: string, rounds: number): Promise<KillResult> {
  let acknowledged = 0;
  let pending: Feeding[] = [];
  let before: Feeding[] = [];
  let sentAgain = 0;
  const faults: string[] = [];
  for (let round = 0; round <= rounds; round += 1) {
    const server = await serve({ dataDir, keepData: true });
    const cookie = await enterDemo(server.origin);
    faults.push(...(await missing(server.origin, cookie, before)).map((what) => `round ${round}: lost ${what}`));
    faults.push(...(await sendAgain(server.origin, cookie, pending)));
    sentAgain += pending.length;
    if (round === rounds) {
      await server.stop();
      break;
    }
    // They feed on until the connection breaks: the kill must meet requests in flight.
    const feeding = await feedPast(server.origin, cookie, 20);
    await sleep(Math.random() * 200);
    await server.stop('SIGKILL');
    const sent = await feeding.sent;
    faults.push(...sent.refused.map(({ status, text }) => `round ${round}: refused ${status} ${text}`));
    before = sent.acknowledged;
    pending = sent.unknown;
    acknowledged += before.length;
  }
  const { integrity, strays, halves } = soundness(dataDir);
  if (integrity !== 'ok') faults.push(`integrity: ${integrity}`);
  if (strays.length > 0) faults.push(`${strays.length} rows point at nothing`);
  if (halves > 0) faults.push(`${halves} feedings without food`);
  return { acknowledged, sentAgain, faults };
}
