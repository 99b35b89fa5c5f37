import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openStore } from '../apps/api/src/db/open.ts';
import { insertCalendarLink } from '../apps/api/src/db/repositories/calendar.ts';
import { TAKE_PLACE } from '../apps/api/src/db/repositories/sign-up.ts';
import { write } from '../apps/api/src/db/store.ts';
import { hashOf, newToken } from '../apps/api/src/services/secret.ts';
import { root } from '../scripts/lib.mjs';
import { type Answer, Client } from './client.ts';
import { table, timesOf } from './measure.ts';
import { type RunningServer, startOurs, startServer } from './server-process.ts';
import { uuid7 } from './uuid7.ts';

const FEEDS = 60;
const SHIFTS = 500;
/** Twelve weeks of every day at six times are a few more than that. */
const WEEKS = 12;
const TIMES = ['07:00', '09:00', '11:00', '13:00', '15:00', '17:00'];
/** Each is five minutes of sixty calendars; no link may be read more than 120 times an hour. */
const ROUNDS = 20;
const SECONDS_BETWEEN = 300;
/** Linux counts processor time in hundredths of a second. */
const TICKS_A_SECOND = 100;

interface Stage {
  readonly paths: readonly string[];
  readonly shiftId: string;
}

async function stage(ours: Client, dataDir: string): Promise<Stage> {
  const post = async (path: string, body: object) => JSON.parse((await ours.ok(path, { method: 'POST', body: JSON.stringify(body) })).body);
  const [site] = JSON.parse((await ours.ok('/api/sites')).body).items as { id: string }[];
  const localDate = new Date().toISOString().slice(0, 10);
  const shiftIds: string[] = [];
  for (const localTime of TIMES) {
    const row = { siteId: site!.id, title: 'Round', localDate, localTime, minutes: 60, places: FEEDS };
    const made = await post('/api/shifts', { id: uuid7(), ...row, weeks: WEEKS, weekdays: [1, 2, 3, 4, 5, 6, 7] });
    shiftIds.push(...made.items.map((item: { id: string }) => item.id));
  }
  const personIds = Array.from({ length: FEEDS }, uuid7);
  for (const [at, id] of personIds.entries()) await post('/api/people', { id, name: `Helper ${at}`, role: 'volunteer' });
  const store = openStore({ file: join(dataDir, 'demo.db') });
  const at = new Date().toISOString();
  const paths = write(store, () =>
    personIds.map((personId) => {
      for (const shiftId of shiftIds.slice(0, SHIFTS)) store.sql(TAKE_PLACE).run({ id: uuid7(), shiftId, personId, at, keepsOffers: 0 });
      const token = newToken();
      insertCalendarLink(store, { id: uuid7(), label: 'Phone', personId, tokenHash: hashOf(token), createdAt: at });
      return `/calendar/${token}.ics`;
    }),
  );
  store.sqlite.close();
  return { paths, shiftId: shiftIds[0]! };
}

/** Processor time of a process with all its threads, so far [s]. */
function cpuSeconds({ pid }: RunningServer): number {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
  return (Number(fields[11]) + Number(fields[12])) / TICKS_A_SECOND;
}

/** What the server does for itself after its start must not be counted as work for calendars. */
async function atRest(server: RunningServer): Promise<void> {
  for (let tries = 0; tries < 100; tries += 1) {
    const before = cpuSeconds(server);
    await new Promise((resolve) => setTimeout(resolve, 500));
    if (cpuSeconds(server) - before < 0.02) return;
  }
  throw new Error('the server does not come to rest');
}

interface Load {
  readonly server: RunningServer;
  /** One after another, as clocks that are set by hand would do it. */
  readonly asks: () => readonly (() => Promise<Answer>)[];
  readonly wanted: number;
  /** What happens before each round, not measured. */
  readonly before?: () => Promise<unknown>;
}

async function measure({ server, asks, wanted, before }: Load) {
  const msList: number[] = [];
  let cpuS = 0;
  for (let round = 0; round < ROUNDS; round += 1) {
    await before?.();
    const since = cpuSeconds(server);
    for (const ask of asks()) {
      const start = performance.now();
      const { status, body } = await ask();
      msList.push(performance.now() - start);
      if (status !== wanted) throw new Error(`Cannot measure as ${wanted} is wanted: current value is ${status} ${body.slice(0, 200)}`);
    }
    cpuS += cpuSeconds(server) - since;
  }
  return { ...timesOf(msList), coreShare: cpuS / (ROUNDS * SECONDS_BETWEEN) };
}

/** Feeds of 500 shifts, and what sixty calendars that ask every five minutes cost (criteria C17), against a bare route in one run. */
export async function benchCalendar(): Promise<string> {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-bench-'));
  const server = await startOurs(join(dir, 'ours'));
  const ours = new Client(server.origin);
  const floorServer = await startServer([process.execPath, join(root, 'bench/floor-text.mjs')]);
  const floor = new Client(floorServer.origin);
  try {
    await ours.enterDemo('coordinator');
    const { paths, shiftId } = await stage(ours, join(dir, 'ours'));
    const began = performance.now();
    await ours.ok(paths[0]!);
    const firstMs = performance.now() - began;
    const texts = await Promise.all(paths.map((path) => ours.ok(path)));
    const tags = new Map(paths.map((path, at) => [path, String(texts[at]!.headers.etag)]));
    const events = texts[0]!.body.split('BEGIN:VEVENT').length - 1;
    if (events !== SHIFTS) throw new Error(`Cannot measure as ${SHIFTS} shifts are wanted: current value is ${events}`);
    await atRest(server);
    let changes = 0;
    const patch = (body: object) => ours.ok(`/api/shifts/${shiftId}`, { method: 'PATCH', body: JSON.stringify(body) });
    const elsewhere = () => patch({ note: `Bring a fork ${changes++}` });
    const inAllFeeds = () => patch({ localTime: changes++ % 2 === 0 ? '07:30' : '07:00' });
    const withTag = () => paths.map((path) => () => ours.send(path, { headers: { 'if-none-match': tags.get(path)! } }));
    const bare = (path: string) => () => paths.map(() => () => floor.send(path));
    const loads: Readonly<Record<string, Load>> = {
      'bare route': { server: floorServer, asks: bare('/bare'), wanted: 200 },
      'bare route, a text of the same size': { server: floorServer, asks: bare(`/text/${texts[0]!.bytes}`), wanted: 200 },
      'nothing changed anywhere: 304': { server, asks: withTag, wanted: 304 },
      'something changed that no feed tells: 304': { server, asks: withTag, wanted: 304, before: elsewhere },
      'a shift of all moved, sent whole': { server, asks: withTag, wanted: 200, before: inAllFeeds },
    };
    const found = [];
    for (const [name, load] of Object.entries(loads)) found.push({ name, ...(await measure(load)) });
    const floorMs = found[0]!.medianMs;
    const rows = found.map(({ name, medianMs, p95Ms, coreShare }) => {
      const share = `${(coreShare * 100).toFixed(3)} %`;
      return [name, medianMs, p95Ms, medianMs / floorMs, share];
    });
    return [
      table(['what', 'median ms', 'p95 ms', 'x bare route', `of one core, ${FEEDS} every 5 min`], rows),
      '',
      `${FEEDS} feeds of ${SHIFTS} shifts and ${texts[0]!.bytes} bytes each, ${ROUNDS} rounds, one connection. The very first feed after a start: ${firstMs.toFixed(0)} ms.`,
    ].join('\n');
  } finally {
    ours.close();
    floor.close();
    await Promise.all([server.stop(), floorServer.stop()]);
    rmSync(dir, { recursive: true, force: true });
  }
}
