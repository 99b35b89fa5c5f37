import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Worker } from 'node:worker_threads';
import { type BinEvent, outlookOf, type Scenario, signalBandsOn, trialOf } from '@middenry/domain';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { modelInWorker, type WorkerModel } from './model-in-worker.ts';

const SCENARIO: Scenario = {
  schema: 'middenry-scenario/1',
  days: 30,
  members: 32,
  seed: 7,
  bin: {
    ...{ kind: 'tote', areaM2: 0.2, depthM: 0.35, zones: 2, openBase: false, ageDays: 0, bedWaterKg: 4 },
    worms: { massKg: 0.5 },
    bed: [{ material: 'cardboard_corrugated', massKg: 2 }],
  },
  climate: { tempC: 18 },
  events: [{ day: 3, type: 'feeding', zone: 1, items: [{ material: 'food_scraps_veg', massKg: 1, how: 'weighed' }], beddingKg: 0.2 }],
};
const SETTINGS = { checkIntervalDays: 7, resting: false };

const NODE_MODULES = new URL('../../../../node_modules', import.meta.url).pathname;

let dir: string;
let worker: WorkerModel;
beforeAll(async () => {
  // In node_modules, so that the thread finds what the build leaves outside.
  dir = mkdtempSync(join(NODE_MODULES, '.middenry-worker-'));
  const file = join(dir, 'model-worker.mjs');
  // As the build makes it.
  const entry = new URL('./model-worker.ts', import.meta.url).pathname;
  const shape = { bundle: true, format: 'esm', platform: 'node', target: 'node20' } as const;
  await build({ entryPoints: [entry], outfile: file, ...shape, external: ['better-sqlite3'], logLevel: 'silent' });
  worker = modelInWorker(join(dir, 'cache.db'), file)!;
}, 60_000);
afterAll(async () => {
  await worker.stop();
  rmSync(dir, { recursive: true, force: true });
});

describe('modelInWorker()', () => {
  test('a feeding that is tried in the thread has the chance of trouble that it has here, and none at all has less than very much', async () => {
    const fed = (massKg: number): BinEvent[] => [
      { day: 31, type: 'feeding', zone: 1, items: [{ material: 'food_scraps_veg', massKg, how: 'weighed' }] },
    ];
    const here = trialOf(SCENARIO, 30, SETTINGS);
    const chances = [await worker.trial(SCENARIO, 30, SETTINGS, fed(0.5)), await worker.trial(SCENARIO, 30, SETTINGS, fed(20))];
    expect(chances).toEqual([here(fed(0.5)), here(fed(20))]);
    expect(chances[0]).toBeLessThan(chances[1]!);
  });

  test('says the same as the model in this thread, to each who asked', async () => {
    const days = [10, 20, 30];
    const answers = await Promise.all(days.map((day) => worker.model(SCENARIO, day, SETTINGS)));
    const yesterday = (day: number) => ({ ...SCENARIO, events: SCENARIO.events.filter((event) => event.day < day) });
    const bandsBefore = (day: number) => signalBandsOn(yesterday(day), day - 1, SETTINGS);
    expect(answers).toEqual(days.map((day) => outlookOf(SCENARIO, day, { ...SETTINGS, bandsBefore: bandsBefore(day) })));
  }, 60_000);

  test('leaves this thread free to turn while it works', async () => {
    const big = { ...SCENARIO, members: 256, seed: 8 };
    let done = false;
    let turns = 0;
    const turn = () => {
      turns += 1;
      if (!done) setTimeout(turn, 1);
    };
    turn();
    const outlook = await worker.model(big, 30, SETTINGS);
    done = true;
    expect(outlook.day).toBe(30);
    // Were the model stepped here, there would be no turn between question and answer.
    expect(turns).toBeGreaterThan(20);
  }, 60_000);

  test('a question that cannot be answered is refused and the next one is answered', async () => {
    await expect(worker.model(SCENARIO, -1, SETTINGS)).rejects.toThrow('today');
    expect((await worker.model(SCENARIO, 5, SETTINGS)).day).toBe(5);
  });

  test('a thread that died refuses what it was asked, and another one takes its place', async () => {
    const lost = worker.model(SCENARIO, 30, SETTINGS);
    await worker.stop();
    await expect(lost).rejects.toThrow('thread ended');
    expect((await worker.model(SCENARIO, 5, SETTINGS)).day).toBe(5);
  });

  test('F24: a thread that is asked nothing for a while ends, and the next question starts another one', async () => {
    const threads: Worker[] = [];
    const note = (thread: Worker) => threads.push(thread);
    process.on('worker', note);
    const resting = modelInWorker(null, join(dir, 'model-worker.mjs'), 30)!;
    expect((await resting.model(SCENARIO, 5, SETTINGS)).day).toBe(5);
    // Node gives a thread that ended this number.
    await vi.waitFor(() => expect(threads.map(({ threadId }) => threadId)).toEqual([-1]), 5000);
    expect((await resting.model(SCENARIO, 6, SETTINGS)).day).toBe(6);
    expect(threads).toHaveLength(2);
    process.off('worker', note);
    await resting.stop();
  });

  test('is null where nothing was built, so that the model stays in this thread', () => {
    expect(modelInWorker(null, join(dir, 'not-there.mjs'))).toBeNull();
  });
});
