/** Criteria C1: twelve processes, forty shifts of three places, 480 tries. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { TAKE_PLACE } from '../../apps/api/src/db/repositories/sign-up.ts';
import { type Cast, freshId, openCast, SITES } from '../cast.ts';

const RACERS = 12;
const SHIFTS = 40;
const PLACES = 3;
const RACER = new URL('./race/racer.mjs', import.meta.url).pathname;
/** Time for twelve processes to start on two cores before the race begins. */
const RUN_UP_MS = 2500;

interface Outcome {
  readonly taken: number;
  readonly full: number;
  readonly errors: readonly string[];
}

let cast: Cast | undefined;
afterEach(async () => cast?.close());

async function stage(): Promise<{ cast: Cast; people: string[]; shiftIds: string[] }> {
  const here = await openCast();
  const people = Array.from({ length: RACERS }, freshId);
  for (const [at, id] of people.entries())
    await here.call('coordinator', 'POST', '/api/people', { id, name: `Racer ${at}`, role: 'volunteer' });
  const shift = {
    siteId: SITES.meadow,
    title: 'Race',
    localDate: '2026-12-05',
    localTime: '09:00',
    minutes: 60,
    places: PLACES,
    weeks: SHIFTS,
  };
  const made = await here.call('coordinator', 'POST', '/api/shifts', { id: freshId(), ...shift });
  return { cast: here, people, shiftIds: made.body.items.map((item: { id: string }) => item.id) };
}

function race(here: Cast, way: 'statement' | 'naive', people: readonly string[], shiftIds: readonly string[]): Promise<Outcome[]> {
  const startAtMs = Date.now() + RUN_UP_MS;
  const file = join(here.dir, 'cast.db');
  return Promise.all(people.map((personId) => runRacer({ file, takeSql: TAKE_PLACE, way, personId, shiftIds, startAtMs })));
}

function runRacer(task: object): Promise<Outcome> {
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

const sum = (outcomes: readonly Outcome[], of: (outcome: Outcome) => number) => outcomes.reduce((total, outcome) => total + of(outcome), 0);
const onShifts = (here: Cast, shiftIds: readonly string[]) =>
  shiftIds.map((id) => Number(here.store.sql('SELECT count(*) FROM sign_up WHERE shift_id = ? AND given_back_at IS NULL').pluck().get(id)));

describe('twelve processes race for forty shifts of three', () => {
  test('exactly 120 places are taken, 360 are told full, nobody gets an error', async () => {
    const staged = await stage();
    cast = staged.cast;
    const outcomes = await race(cast, 'statement', staged.people, staged.shiftIds);
    expect(sum(outcomes, (outcome) => outcome.taken)).toBe(SHIFTS * PLACES);
    expect(sum(outcomes, (outcome) => outcome.full)).toBe(SHIFTS * (RACERS - PLACES));
    expect(outcomes.flatMap((outcome) => outcome.errors)).toEqual([]);
    expect(onShifts(cast, staged.shiftIds)).toEqual(Array(SHIFTS).fill(PLACES));
  });

  test('the naive way, look and then insert, overbooks under the same race', async () => {
    const staged = await stage();
    cast = staged.cast;
    // Without the second lock, as it would be in a product that only looks first.
    cast.store.sqlite.exec('DROP TRIGGER sign_up_never_over');
    await race(cast, 'naive', staged.people, staged.shiftIds);
    expect(Math.max(...onShifts(cast, staged.shiftIds))).toBeGreaterThan(PLACES);
  });

  test('the second lock in the schema keeps even the naive way from overbooking', async () => {
    const staged = await stage();
    cast = staged.cast;
    const outcomes = await race(cast, 'naive', staged.people, staged.shiftIds);
    expect(Math.max(...onShifts(cast, staged.shiftIds))).toBe(PLACES);
    expect(outcomes.flatMap((outcome) => outcome.errors).length).toBeGreaterThan(0);
  });
});
