/**
 * The archive built, started, used and tested as arm64 (criteria H14, H15), on a machine that emulates it: see `arm64/emulated.ts`.
 * From nothing but Debian on x64, root, its packages and npm's registry. Slow: an emulated second is some ten of this machine.
 */
import type { ChildProcess } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { simulateText } from '@middenry/domain';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { bytesOf, hotp } from '../../apps/api/src/services/totp.ts';
import { filesUnder, root } from '../../scripts/lib.mjs';
import { heldFlag } from '../api/photo-files.ts';
import { freshId, PASSWORD } from '../cast.ts';
import { type Arm64, openArm64, type Ran } from './arm64/emulated.ts';
import { farthestApart, SCENARIO } from './arm64/numbers.ts';

const MINUTES = { build: 60, command: 10, tests: 60 };
const MOST_MS = 7_200_000;
const PORT = '4861';
const MINUTE_MS = 60_000;
/** How much longer a test may take than it says itself: its limit is for a machine that is no emulation. */
const PATIENCE = 20;
/** Those that reach what is compiled: SQLite, argon2, libvips, and the solver in WebAssembly. */
const API_FILES = ['entries', 'photos', 'session', 'second-step', 'rota', 'season', 'season-pdf', 'export'].map(
  (name) => `tests/api/${name}.test.ts`,
);
let machine: Arm64;
let here: string;
let data: string;

beforeAll(async () => {
  machine = await openArm64();
  [here, data] = [join(machine.dir, 'middenry'), join(machine.dir, 'data')];
  well(await machine.run(root, `git archive --prefix=middenry/ HEAD | tar -x -C ${machine.dir}`, 1));
}, MOST_MS);
afterAll(() => machine?.remove());

const tell = (words: string) => process.stdout.write(`${words}\n`);

function well(ran: Ran): string {
  expect(ran, ran.said).toMatchObject({ code: 0 });
  return ran.said;
}

/** A command of the program on the emulated machine, as a keeper types it. */
const middenry = (words: string): Promise<Ran> =>
  machine.run(here, `DATA_DIR=${data} node --no-deprecation scripts/middenry.mjs ${words}`, MINUTES.command);

const url = `http://127.0.0.1:${PORT}`;

async function ask(method: string, path: string, body?: object | Buffer, cookie = '') {
  const type = Buffer.isBuffer(body) ? 'image/jpeg' : 'application/json';
  const answer = await fetch(url + path, {
    method,
    headers: { origin: url, cookie, ...(body && { 'content-type': type }) },
    ...(body && { body: Buffer.isBuffer(body) ? new Uint8Array(body) : JSON.stringify(body) }),
  });
  const bytes = Buffer.from(await answer.arrayBuffer());
  const json = () => JSON.parse(bytes.toString());
  return { status: answer.status, bytes, json, cookie: String(answer.headers.get('set-cookie')).split(';')[0]! };
}

/** The server as the unit starts it, once it answers. */
async function serve(): Promise<{ child: ChildProcess; printed(): string }> {
  const child = machine.start(here, ['apps/api/build/server.mjs', '--own'], { DATA_DIR: data, PORT, NODE_ENV: 'production' });
  let printed = '';
  for (const stream of [child.stdout!, child.stderr!])
    stream.on('data', (piece: Buffer) => {
      printed += piece.toString();
    });
  for (const until = Date.now() + MINUTES.command * MINUTE_MS; ; ) {
    if (
      await ask('GET', '/livez').then(
        (answer) => answer.status === 200,
        () => false,
      )
    )
      return { child, printed: () => printed };
    if (child.exitCode !== null || Date.now() > until) throw new Error(`the server of arm64 did not answer: ${printed}`);
    await new Promise((resolve) => setTimeout(resolve, 500));
  }
}

async function halt({ child }: { child: ChildProcess }): Promise<void> {
  const ended = new Promise((resolve) => child.once('close', resolve));
  child.kill('SIGTERM');
  expect(await ended).toBe(0);
}

test('H14, H15: is installed and built as arm64, with SQLite compiled and everything else as it comes', { timeout: MOST_MS }, async () => {
  const built = await machine.run(here, 'node -p process.arch\nnpm run build', MINUTES.build);
  const said = well(built);
  expect(said).toMatch(/^arm64\n/);
  expect(said).toContain('compiling SQLite');
  const compiled = join(here, 'node_modules/better-sqlite3/build/Release/better_sqlite3.node');
  // ELF, two bytes from the 18th on: 183 is AArch64.
  expect(readFileSync(compiled).readUInt16LE(18)).toBe(183);
  tell(`installed and built in ${Math.round(built.ms / 1000)} s`);
});

test('H14: runs as arm64: begun by its code, a note, a photo, a backup, its store lost and restored', { timeout: MOST_MS }, async () => {
  const first = await serve();
  expect((await ask('GET', '/readyz')).status).toBe(200);
  const code = /setup code (\S{4}-\S{4}),/.exec(first.printed())![1];
  const bin = { id: freshId(), code: 'O1', name: 'First tote', kind: 'tote', areaM2: 0.2, depthM: 0.35, zones: 2 };
  const email = 'wanda@example.org';
  const begun = await ask('POST', '/api/setup', {
    code,
    programme: { name: 'Orchard End', timeZone: 'Europe/London' },
    coordinator: { id: freshId(), name: 'Wanda Reed', email, password: PASSWORD },
    site: { id: freshId(), name: 'Orchard' },
    bins: [{ ...bin, startedOn: '2026-01-10', wormsKg: 0.5, bedWaterKg: 4, bed: [{ materialId: 'cardboard_corrugated', massKg: 2 }] }],
  });
  expect(begun.status, begun.bytes.toString()).toBe(201);
  const { secret } = (await ask('POST', '/api/totp', {}, begun.cookie)).json();
  // A code is good for about a minute, which a busy emulator may take for an answer.
  const turnOn = () => ask('PUT', '/api/totp', { code: hotp(bytesOf(secret), Math.floor(Date.now() / 30_000)) }, begun.cookie);
  let turnedOn = await turnOn();
  for (let tries = 1; turnedOn.status !== 200 && tries < 4; tries += 1) turnedOn = await turnOn();
  const [recoveryCode] = turnedOn.json().recoveryCodes;

  const happenedAt = new Date(Date.now() - MINUTE_MS).toISOString();
  const noted = await ask('POST', '/api/notes', { id: freshId(), binId: bin.id, happenedAt, note: 'All quiet.' }, begun.cookie);
  expect(noted.status, noted.bytes.toString()).toBe(201);
  const photo = `/api/photos/${freshId()}`;
  const about = new URLSearchParams({ binId: bin.id, takenAt: happenedAt, kind: 'bin', people: 'none' });
  const sent = await ask('PUT', `${photo}?${about}`, await heldFlag(6), begun.cookie);
  expect(sent.status, sent.bytes.toString()).toBe(201);
  await halt(first);

  expect(well(await middenry('backup'))).toMatch(/^Backed up 1 entries and 1 people/m);
  for (const end of ['', '-wal', '-shm']) rmSync(join(data, `own.db${end}`), { force: true });
  expect(well(await middenry('restore'))).toMatch(/Restored 1 entries and 1 people/);
  const checked = well(await middenry('doctor'));
  expect([checked.includes('look!'), checked.includes('reads back whole')], checked).toEqual([false, true]);
  tell(checked);

  const second = await serve();
  const signedIn = await ask('POST', '/api/session', { email, password: PASSWORD, code: recoveryCode });
  expect(signedIn.status, signedIn.bytes.toString()).toBe(201);
  const seen = await ask('GET', photo, undefined, signedIn.cookie);
  // Held sideways, it stands upright now and says nothing of how it was held.
  const { format, width = 0, height = 0, orientation } = await sharp(seen.bytes).metadata();
  expect([seen.status, format, width > height, orientation]).toEqual([200, 'jpeg', true, undefined]);
  const page = await fetch(url, { headers: { accept: 'text/html' } });
  expect([page.status, (await page.text()).includes('</html>')]).toEqual([200, true]);
  await halt(second);
});

test('H14: the model gives the numbers of x64 to twelve digits', { timeout: MOST_MS }, async () => {
  const text = JSON.stringify(SCENARIO);
  const file = join(machine.dir, 'scenario.json');
  writeFileSync(file, text);
  well(await middenry(`simulate ${file} --out ${file}.result`));
  const own = simulateText(text);
  if (own.exitCode !== 0) throw new Error(own.faultLines.join('\n'));
  const apart = farthestApart(JSON.parse(own.resultText), JSON.parse(readFileSync(`${file}.result`, 'utf8')));
  expect(apart.numbers).toBeGreaterThan(5000);
  expect(apart.farthest).toBeLessThan(1e-12);
  tell(`of ${apart.numbers} numbers ${apart.unlike} differ from those of x64, by ${apart.farthest} of themselves at most`);
});

test('H14: tests pass as arm64: the whole domain, and what reaches the compiled parts', { timeout: MOST_MS }, async () => {
  const files = filesUnder(['packages/domain', ...API_FILES], here).filter((file) => file.endsWith('.test.ts'));
  for (const file of files) {
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace(/(?<=\}, |timeout: )(?=\d[\d_]{4})/g, `${PATIENCE} * `));
  }
  const vitest = 'node node_modules/vitest/vitest.mjs run --testTimeout=600000 --hookTimeout=600000';
  for (const which of ['--project unit packages/domain', `--project api ${API_FILES.join(' ')}`]) {
    const ran = await machine.run(here, `${vitest} ${which}`, MINUTES.tests);
    const [, count] = /Tests +(\d+) passed \(\d+\)/.exec(well(ran)) ?? [];
    expect(Number(count), ran.said).toBeGreaterThan(50);
    tell(`${which}: ${count} passed in ${Math.round(ran.ms / 1000)} s`);
  }
});
