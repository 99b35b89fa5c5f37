import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  advance,
  type BinEvent,
  type BinRun,
  encodeCheckpoint,
  forkRun,
  type RunMemory,
  restoreRun,
  type Scenario,
  startRun,
} from '@middenry/domain';
import { rememberer } from '../apps/api/src/model/rememberer.ts';
import { MEMBERS as MEMBERS_OF_BOARD } from '../apps/api/src/services/model.ts';
import { feedAdvice } from '../packages/domain/src/plan/feed-advice.ts';
import { assess } from '../packages/domain/src/signals/assess.ts';
import { logFactsAt } from '../packages/domain/src/signals/log-facts.ts';
import { benchesOf, standingOf, troubleAfter } from '../packages/domain/src/standing.ts';
import { countKernel } from './counted-kernel.ts';
import { inTurn, repeat, table, timesOf } from './measure.ts';

const SETTINGS = { checkIntervalDays: 7, resting: false };
const MEMBERS = 256;
const MEMBER_DAYS = 20;
const HEAVY = 4;
const BYTES_PER_MB = 1e6;

/** A bin of six zones that is fed every four days and looked at every week. */
function scenarioOf(days: number, members: number, seed = 7): Scenario {
  const fed = Array.from(
    { length: Math.ceil(days / 4) },
    (_, i): BinEvent => ({
      day: i * 4,
      type: 'feeding',
      zone: (i % 6) + 1,
      items: [{ material: 'food_scraps_veg', massKg: 0.5, how: 'container' }],
      beddingKg: 0.06,
      entryId: `f${i}`,
    }),
  );
  const looked = Array.from(
    { length: Math.floor(days / 7) },
    (_, i): BinEvent => ({ day: i * 7 + 5, type: 'check', squeeze: 'one-two-drops', smell: 'earthy', entryId: `c${i}` }),
  );
  return {
    schema: 'middenry-scenario/1',
    days,
    members,
    seed,
    bin: {
      ...{ kind: 'flow-through', areaM2: 0.6, depthM: 0.5, zones: 6, openBase: false, ageDays: 0, bedWaterKg: 12 },
      worms: { massKg: 1.2 },
      bed: [{ material: 'cardboard_corrugated', massKg: 6 }],
    },
    climate: { tempC: 19 },
    events: [...fed, ...looked].filter((event) => event.day <= days).sort((a, b) => a.day - b.day),
  };
}

const OPERATIONS_A_TURN = 8;

/** A bare loop over columns with as many operations and as many exponentials as were counted; four sums that wait for nothing. */
function bareLoop(members: number, { arithmetic, series }: { arithmetic: number; series: number }): () => void {
  const columns = Array.from({ length: 4 }, (_, i) => new Float64Array(members).fill(0.2 + 0.1 * i)) as [F64, F64, F64, F64];
  const [turns, exponentials] = [Math.round(arithmetic / OPERATIONS_A_TURN), Math.round(series)];
  return () => {
    for (let day = 0; day < MEMBER_DAYS; day++)
      for (let m = 0; m < members; m++) {
        let [a, b, c, d] = [columns[0][m]!, columns[1][m]!, columns[2][m]!, columns[3][m]!];
        for (let i = 0; i < exponentials; i++) a = Math.exp(-a);
        for (let i = 0; i < turns; i++) {
          a = a * 0.999 + 0.0003;
          b = b * 0.998 + 0.0004;
          c = c * 0.997 + 0.0005;
          d = d * 0.996 + 0.0006;
        }
        columns[0][m] = a;
        columns[1][m] = b;
        columns[2][m] = c;
        columns[3][m] = d;
      }
  };
}

type F64 = Float64Array;

async function kernelTable(): Promise<string> {
  const counted = await countKernel(scenarioOf(MEMBER_DAYS, MEMBERS), MEMBER_DAYS);
  const stood = advance(startRun(scenarioOf(120, MEMBERS), { recordsRows: false }), 100);
  const times = await inTurn(
    { kernel: () => void advance(forkRun(stood, { keepHistory: false }), MEMBER_DAYS), bare: bareLoop(MEMBERS, counted) },
    { warmUps: 15, count: 10, rounds: 4 },
  );
  const perDay = (ms: number): number => (ms * 1000) / (MEMBER_DAYS * MEMBERS);
  return table(
    ['kernel against a bare loop', 'us per member-day', 'ratio'],
    [
      [
        `bare loop: ${counted.arithmetic.toFixed(0)} operations, ${counted.series.toFixed(0)} exponentials, as counted`,
        perDay(times.bare.medianMs),
        1,
      ],
      ['kernel, six zones', perDay(times.kernel.medianMs), times.kernel.medianMs / times.bare.medianMs],
    ],
  );
}

/** What one question costs on a bin of some history, with what was kept of it. */
async function questionRows(): Promise<(string | number)[][]> {
  const today = 200;
  const standing = standingOf(scenarioOf(today, MEMBERS), today, { ...SETTINGS, historyDays: 56 });
  const forecast = await repeat(() => void advance(forkRun(standing.run), 14), { warmUps: 10, count: 20 });
  const bare = await repeat(() => void advance(forkRun({ ...standing.run, recordsRows: false }), 14), { warmUps: 10, count: 20 });
  const hungry = { ...standing, bin: { ...standing.bin, foodInHandDays: 0 } };
  const scene = { setup: hungry.setup, bin: hungry.bin, log: logFactsAt([], today), resting: false };
  const benches = benchesOf(hungry);
  const advice = await repeat(() => feedAdvice({ ...scene, troubleAfter: (plan, by) => troubleAfter(hungry, plan, benches[by]) }), {
    warmUps: 3,
    count: 10,
  });
  // Food four times as heavy as it is told to be: a bin that bears a part of its ration, so that the search goes down.
  const searched = await repeat(
    () => feedAdvice({ ...scene, troubleAfter: (plan, by) => troubleAfter(hungry, { ...plan, massKg: HEAVY * plan.massKg }, benches[by]) }),
    { warmUps: 3, count: 10 },
  );
  const row = (name: string, times: readonly number[], target: string): (string | number)[] => {
    const { medianMs, p95Ms } = timesOf(times);
    return [name, medianMs, p95Ms, target];
  };
  return [
    row(`forecast of 14 days, ${MEMBERS} members, 6 zones, stepped`, bare, '10'),
    row('the same with every day written down', forecast, ''),
    row(`feed advice, ${MEMBERS} members, the whole ration`, advice, '150'),
    row('the same, less than the ration searched for', searched, '150'),
  ];
}

/** So much at once that several flags go up and every remedy is tried. */
const TOO_MUCH = (day: number): BinEvent => ({
  day,
  type: 'feeding',
  zone: 1,
  items: [{ material: 'food_scraps_veg', massKg: 15, how: 'container' }],
  entryId: 'too-much',
});

/** From an entry of today to the signals' bands alone, gone on from the run kept yesterday. */
async function bandRow(before: Scenario, after: Scenario, today: number): Promise<(string | number)[]> {
  const yesterday = standingOf(before, today - 1, { ...SETTINGS, historyDays: 30 }).run;
  const kept = encodeCheckpoint(yesterday, 31);
  const memory: RunMemory = { recall: (scenario) => restoreRun(scenario, kept), keepDays: () => [], keep: () => undefined };
  const times = await repeat(
    () => {
      const standing = standingOf(after, today, { ...SETTINGS, historyDays: 30 }, memory);
      const { past, coming, log, planned, bin } = standing;
      assess({ ...standing, days: [...past, ...coming], events: [...log, ...planned], binOn: () => bin });
    },
    { warmUps: 3, count: 10 },
  );
  const { medianMs, p95Ms } = timesOf(times);
  return [`entry to band, ${before.members} members, ${today} days of log`, medianMs, p95Ms, '50'];
}

/** From an entry of today to everything that the board and the bin's page show. */
async function entryRows(dir: string): Promise<(string | number)[][]> {
  const rows: (string | number)[][] = [];
  for (const members of [MEMBERS_OF_BOARD, MEMBERS])
    for (const today of [60, 400, 800]) {
      const model = rememberer(join(dir, `cache-${members}-${today}.db`), import.meta.url);
      const before = scenarioOf(today, members);
      model.outlookOf(before, today, SETTINGS).keep();
      const after = { ...before, events: [...before.events, TOO_MUCH(today)] };
      rows.push(await bandRow(before, after, today));
      const times = await repeat(() => void model.outlookOf(after, today, SETTINGS), { warmUps: 3, count: 10 });
      model.close();
      const { medianMs, p95Ms } = timesOf(times);
      rows.push([`entry to remedies, advice and all else, ${members} members, ${today} days of log`, medianMs, p95Ms, '1000']);
    }
  return rows;
}

/** Many bins one day on: sixty different ones, each stepped as often as it takes. */
function manyBins(): (string | number)[][] {
  const runs = Array.from({ length: 60 }, (_, i): BinRun => advance(startRun(scenarioOf(60, MEMBERS, i + 1), { recordsRows: false }), 50));
  return [600, 10_000].map((count) => {
    const since = performance.now();
    for (let i = 0; i < count; i++) advance(forkRun(runs[i % runs.length]!, { keepHistory: false }), 1);
    return [`${count} bins one day forward, ${MEMBERS} members`, (performance.now() - since) / 1000, count === 10_000 ? '20' : ''];
  });
}

/** After a fortnight of days, when all that is ever kept is there. */
function roomRows(dir: string): (string | number)[][] {
  return [MEMBERS_OF_BOARD, MEMBERS].map((members) => {
    const state = startRun(scenarioOf(1, members)).state.buffer.byteLength / BYTES_PER_MB;
    const file = join(dir, `room-${members}.db`);
    const model = rememberer(file, import.meta.url);
    for (let today = 785; today <= 800; today++) model.outlookOf(scenarioOf(today, members), today, SETTINGS).keep();
    model.close();
    return [`${members} members, six zones, 800 days`, state, statSync(file).size / BYTES_PER_MB];
  });
}

/** How fast the bin model is, against a floor of this machine and against what was wished for. */
export async function benchModel(): Promise<string> {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-bench-model-'));
  try {
    const kernel = await kernelTable();
    const asked = table(['question', 'median ms', 'p95 ms', 'wished ms'], [...(await questionRows()), ...(await entryRows(dir))]);
    const many = table(['many bins', 's', 'wished s'], manyBins());
    const room = table(['room of one bin', 'state in memory MB', 'kept on disk MB'], roomRows(dir));
    return [kernel, asked, many, room].join('\n\n');
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}
