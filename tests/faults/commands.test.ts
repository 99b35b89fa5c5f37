/** What a person does at the console, with the real commands as processes of their own. */
import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PASSWORD } from '../cast.ts';
import { ask, beginGarden, email, setSecondStep } from './orchard.ts';
import { dropDataDir, freshDataDir, type ServerProcess, startServer } from './server-process.ts';

const root = new URL('../../', import.meta.url).pathname;
const dir = freshDataDir();
afterAll(() => dropDataDir(dir));

interface Done {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

const middenry = (...args: string[]): Promise<Done> => middenryIn(dir, ...args);

function middenryIn(dataDir: string, ...args: string[]): Promise<Done> {
  const { PATH = '', HOME = '' } = process.env;
  const words = ['--no-deprecation', join(root, 'apps/api/build/cli.mjs'), ...args];
  const child = spawn(process.execPath, words, { cwd: root, env: { PATH, HOME, DATA_DIR: dataDir }, stdio: ['ignore', 'pipe', 'pipe'] });
  let out = '';
  let err = '';
  child.stdout.on('data', (piece: Buffer) => {
    out += piece.toString();
  });
  child.stderr.on('data', (piece: Buffer) => {
    err += piece.toString();
  });
  return new Promise((resolve) => child.once('close', (code) => resolve({ code, out, err })));
}

const serve = () => startServer({ dataDir: dir, flags: ['--own'] });
async function halt(server: ServerProcess): Promise<void> {
  server.child.kill('SIGTERM');
  expect(await server.ended).toBe(0);
}

let recoveryCodes: string[];

async function beginHere(): Promise<void> {
  const server = await serve();
  ({ recoveryCodes } = await beginGarden(server.url, server.output()));
  await halt(server);
}

describe('npx middenry', () => {
  beforeAll(beginHere, 90_000);

  it('says what it can do, and refuses what it cannot', async () => {
    const help = await middenry();
    expect([help.code, help.out.includes('restore [FILE]')]).toEqual([0, true]);
    const unknown = await middenry('brew');
    expect([unknown.code, unknown.err.includes('brew is no command')]).toEqual([2, true]);
  });

  it('F9: backup, a lost store, restore: everything is there again and everybody signs in anew', { timeout: 120_000 }, async () => {
    const backup = await middenry('backup');
    expect([backup.code, backup.out]).toEqual([0, expect.stringMatching(/^Backed up 1 entries and 1 people to .*own-.*\.db\n$/)]);
    for (const file of readdirSync(dir)) if (file.startsWith('own.db')) rmSync(join(dir, file));
    const restored = await middenry('restore');
    expect([restored.code, restored.out]).toEqual([
      0,
      expect.stringContaining('Restored 1 entries and 1 people: fed 0 g, harvested 1250 g'),
    ]);
    const server = await serve();
    const { cookie, status } = await ask(server.url, 'POST', '/api/session', { email, password: PASSWORD, code: recoveryCodes[0] });
    expect(status).toBe(201);
    const season = await ask(server.url, 'GET', '/api/season?from=2026-01-01&to=2099-12-31', undefined, cookie);
    expect(season.body.total.harvestedG).toBe(1250);
    const running = await middenry('restore');
    expect([running.code, running.err]).toEqual([5, expect.stringContaining('already running')]);
    await halt(server);
  });

  it('G1: export, then import on an empty machine: the same programme, into which reset-owner lets the owner', {
    timeout: 60_000,
  }, async () => {
    const zip = join(dir, 'orchard.zip');
    const written = await middenry('export', zip);
    expect([written.code, written.out]).toEqual([
      0,
      expect.stringMatching(/^Exported 1 entries, 1 people and 0 photos to .*orchard\.zip\n/),
    ]);
    const other = freshDataDir();
    const read = await middenryIn(other, 'import', zip);
    expect([read.code, read.out]).toEqual([0, expect.stringMatching(/^Brought back 1 entries, 1 people and 0 photos of Orchard End\.\n/)]);
    const twice = await middenryIn(other, 'import', zip);
    expect([twice.code, twice.err]).toEqual([2, expect.stringMatching(/has begun here already.*Nothing was changed\.\n$/)]);
    expect((await middenryIn(other, 'reset-owner')).out).toContain('Wanda Reed signs in as wanda@example.org');
    dropDataDir(other);
  });

  it('restore refuses a damaged backup in words and changes nothing', { timeout: 60_000 }, async () => {
    const bad = join(dir, 'bad.db');
    writeFileSync(bad, 'not a database at all'.repeat(500));
    const before = readFileSync(join(dir, 'own.db'));
    const { code, err } = await middenry('restore', bad);
    expect([code, err]).toEqual([2, expect.stringMatching(/^middenry: Cannot restore .*Nothing was changed; try an older backup\.\n$/)]);
    expect(readFileSync(join(dir, 'own.db')).equals(before)).toBe(true);
  });

  it('doctor finds nothing, then finds what is broken', { timeout: 60_000 }, async () => {
    const well = await middenry('doctor');
    expect([well.code, well.out.includes('look!'), well.out.includes('reads back whole')]).toEqual([0, false, true]);
    const newest = readdirSync(join(dir, 'backups'))
      .filter((name) => /^own-.*\.db$/.test(name))
      .sort()
      .at(-1)!;
    const bytes = readFileSync(join(dir, 'backups', newest));
    bytes[100_000]! ^= 0xff;
    writeFileSync(join(dir, 'backups', newest), bytes);
    const ill = await middenry('doctor');
    expect([ill.code, ill.out]).toEqual([1, expect.stringContaining('look!')]);
  });

  it('H26: reset-owner lets a locked-out owner back in without e-mail', { timeout: 60_000 }, async () => {
    const { code, out } = await middenry('reset-owner');
    expect(code).toBe(0);
    const password = /with the password (\S+)\./.exec(out)![1];
    const server = await serve();
    expect((await ask(server.url, 'POST', '/api/session', { email, password: PASSWORD })).status).toBe(401);
    const { status, cookie } = await ask(server.url, 'POST', '/api/session', { email, password });
    expect(status).toBe(201);
    // The way back in needs a new second step like any other.
    expect(await setSecondStep(server.url, cookie)).toHaveLength(10);
    const audit = await ask(server.url, 'GET', '/api/audit', undefined, cookie);
    expect(audit.body.items.map(({ action }: { action: string }) => action)).toContain('owner-reset');
    await halt(server);
  });

  it('simulate writes a result, and one line per fault', { timeout: 60_000 }, async () => {
    const scenario = {
      schema: 'middenry-scenario/1',
      days: 3,
      members: 1,
      seed: 1,
      climate: { tempC: 20 },
      events: [],
      bin: {
        kind: 'tote',
        areaM2: 0.2,
        depthM: 0.35,
        zones: 2,
        openBase: false,
        ageDays: 0,
        worms: { massKg: 0.5 },
        bed: [{ material: 'cardboard_corrugated', massKg: 2 }],
        bedWaterKg: 4,
      },
    };
    const file = join(dir, 'scenario.json');
    const result = join(dir, 'result.json');
    writeFileSync(file, JSON.stringify(scenario));
    expect((await middenry('simulate', file, '--out', result)).code).toBe(0);
    expect(JSON.parse(readFileSync(result, 'utf8')).days).toHaveLength(4);
    writeFileSync(file, JSON.stringify({ ...scenario, days: -1, members: 'many' }));
    const faulty = await middenry('simulate', file);
    expect([faulty.code, faulty.err.trim().split('\n').length >= 2]).toEqual([2, true]);
  });
});
