/** Many processes accept one place on offer at the same moment, through the very statement of the product. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { ACCEPT_SWAP } from '../../../apps/api/src/db/repositories/swap.ts';
import { type Cast, freshId, PEOPLE, SITES } from '../../cast.ts';

const RACER = new URL('./swap-racer.mjs', import.meta.url).pathname;

export interface SwapOutcome {
  readonly won: number;
  readonly lost: number;
  readonly errors: readonly string[];
}

/** A place on offer by the volunteer, to anybody. */
export async function placeOnOffer(cast: Cast): Promise<{ swapId: string; shiftId: string }> {
  const [shiftId, signUpId, swapId] = [freshId(), freshId(), freshId()];
  const shift = { id: shiftId, siteId: SITES.meadow, title: 'Race', localDate: '2026-12-05', localTime: '09:00', minutes: 60, places: 1 };
  await cast.call('coordinator', 'POST', '/api/shifts', shift);
  await cast.call('volunteer', 'POST', `/api/shifts/${shiftId}/sign-ups`, { id: signUpId });
  await cast.call('volunteer', 'POST', `/api/shifts/${shiftId}/swaps`, { id: swapId, signUpId });
  return { swapId, shiftId };
}

/** Each of so many processes tries so many times; nobody waits for the others. */
export function raceFor(cast: Cast, swapId: string, size: { racers: number; tries: number; way: 'statement' | 'naive' }) {
  const file = join(cast.dir, 'cast.db');
  const people = [PEOPLE.otherVolunteer.id, PEOPLE.siteLead.id, PEOPLE.coordinator.id];
  const tasks = Array.from({ length: size.racers }, (_, at) => ({
    ...{
      file,
      swapId,
      racer: at,
      racers: size.racers,
      acceptSql: ACCEPT_SWAP,
      tries: size.tries,
      way: size.way,
      personId: people[at % people.length],
    },
  }));
  return Promise.all(tasks.map(runRacer));
}

function runRacer(task: object): Promise<SwapOutcome> {
  return new Promise((resolve, reject) => {
    const racer = spawn(process.execPath, [RACER], { stdio: ['pipe', 'pipe', 'inherit'] });
    let text = '';
    racer.stdout.on('data', (chunk) => {
      text += chunk;
    });
    racer.on('error', reject);
    racer.on('close', (code) => (code === 0 ? resolve(JSON.parse(text)) : reject(new Error(`racer ended with ${code}`))));
    racer.stdin.end(JSON.stringify(task));
  });
}
