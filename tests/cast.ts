/** The one cast of every API test: two sites, three bins, and somebody in every role. */
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { buildApp } from '../apps/api/src/app.ts';
import { type Config, readConfig } from '../apps/api/src/config.ts';
import { type MovableClock, movableClock } from '../apps/api/src/context.ts';
import { migrate } from '../apps/api/src/db/migrate.ts';
import { openStore } from '../apps/api/src/db/open.ts';
import { deleteCredentials, insertCredential, listCredentials, markTotpOn } from '../apps/api/src/db/repositories/credential.ts';
import { type Store, write } from '../apps/api/src/db/store.ts';
import { photoDirOf } from '../apps/api/src/photos/shelf.ts';
import { keeperOf } from '../apps/api/src/services/keeper.ts';
import { useModel } from '../apps/api/src/services/outlook-cache.ts';
import type { Room } from '../apps/api/src/services/room.ts';
import { newSetupCode } from '../apps/api/src/services/setup-code.ts';
import { soundnessOf } from '../apps/api/src/services/soundness.ts';
import { newTotpSecret } from '../apps/api/src/services/totp.ts';
import type { OwnSolver } from '../apps/api/src/solver/highs-solver.ts';
import { modelOnce } from './model-once.ts';

export const MIGRATIONS_DIR = new URL('../migrations', import.meta.url).pathname;

const STORE_FILE = 'cast.db';

/** UUIDv7 by number: readable in a failure, and never the same twice. */
export const uuid = (number: number): string => `0192f000-0000-7000-8000-${String(number).padStart(12, '0')}`;

let made = 1000;
/** A client id that nothing has used yet. */
export function freshId(): string {
  made += 1;
  return uuid(made);
}

export const PEOPLE = {
  owner: { id: uuid(1), name: 'Ingrid Halloway', role: 'coordinator', sites: [] },
  coordinator: { id: uuid(2), name: 'Teodor Wrenfield', role: 'coordinator', sites: [] },
  siteLead: { id: uuid(3), name: 'Priya Ashlund', role: 'site-lead', sites: ['meadow'] },
  volunteer: { id: uuid(4), name: 'Otis Barrow', role: 'volunteer', sites: [] },
  otherVolunteer: { id: uuid(5), name: 'Maren Quill', role: 'volunteer', sites: [] },
  pupil: { id: uuid(6), name: 'Juno B.', role: 'pupil', sites: ['meadow'] },
  disabled: { id: uuid(7), name: 'Silas Thorne', role: 'volunteer', sites: [] },
} as const;
export type PersonKey = keyof typeof PEOPLE;

export const SITES = { meadow: uuid(11), school: uuid(12) } as const;
export const BINS = { tote: uuid(21), flow: uuid(22), school: uuid(23) } as const;
export const PASSWORD = 'many small worms at work';

export interface Answer {
  readonly status: number;
  // Tests reach into answers of many shapes; the contract checks every one of them on its way out.
  // biome-ignore lint/suspicious/noExplicitAny: see above
  readonly body: any;
  readonly text: string;
  readonly headers: Readonly<Record<string, unknown>>;
}

export interface Cast {
  readonly app: FastifyInstance;
  readonly store: Store;
  readonly clock: MovableClock;
  readonly dir: string;
  /** The setup code as it would be printed. */
  readonly setupWords: string;
  /** A request as somebody, or as nobody. */
  call(who: PersonKey | null, method: string, url: string, body?: unknown, headers?: Record<string, string>): Promise<Answer>;
  cookie(who: PersonKey): string;
  close(): Promise<void>;
}

/** The cookie that an answer sets, as a browser would send it back. */
export const cookieIn = (answer: Pick<Answer, 'headers'>): string => String(answer.headers['set-cookie']).split(';')[0]!;

const MINUTE_MS = 60_000;
export function later({ clock }: Pick<Cast, 'clock'>, minutes: number): void {
  clock.at = new Date(clock.at.getTime() + minutes * MINUTE_MS);
}

interface CastOptions {
  readonly at?: string;
  readonly isDemo?: boolean;
  readonly env?: Record<string, string>;
  readonly log?: NodeJS.WritableStream;
  /** Room kept back on the disk, in the folder it is given. */
  readonly room?: (dir: string) => Room;
  readonly solver?: OwnSolver;
  /** Coordinators have theirs unless a test wants to see them set it up. */
  readonly secondStep?: boolean;
  /** A folder that `copyOf` made of another cast: begun with, and nothing is put into it. */
  readonly from?: string;
}

/** An app on a real database in a folder of its own, empty but for its schema. */
export async function openEmpty(options: CastOptions = {}): Promise<Omit<Cast, 'call' | 'cookie'> & { config: Config }> {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-'));
  if (options.from !== undefined) cpSync(options.from, dir, { recursive: true });
  const clock = movableClock(new Date(options.at ?? '2026-11-25T10:00:00.000Z'));
  const config = readConfig({ DATA_DIR: dir, ...options.env }, []);
  // Its file outlives no test, so no write waits for the disk; that a built server's do is asked in `tests/faults`.
  const store = openStore({ file: join(dir, STORE_FILE), throwAway: true });
  useModel(store, modelOnce);
  migrate(store, { dir: MIGRATIONS_DIR, copyDir: join(dir, 'backups'), now: clock.at });
  const setup = newSetupCode(clock);
  const file = join(dir, STORE_FILE);
  const backupDir = join(dir, 'backups');
  const soundness = soundnessOf({ clock, file, backupDir, name: 'own' });
  const keeper = keeperOf({
    store,
    clock,
    file,
    dir: backupDir,
    name: 'own',
    photoDir: photoDirOf(config),
    migrationsDir: MIGRATIONS_DIR,
    hourly: true,
    soundness,
  });
  const app = await buildApp({
    store,
    clock,
    config,
    setupCode: setup.code,
    keeper,
    soundness,
    renewDemo: () => undefined,
    checkAnswers: true,
    room: options.room?.(dir),
    solver: options.solver,
    ...(options.log === undefined ? {} : { log: options.log }),
  });
  const close = async () => {
    await app.close();
    store.sqlite.close();
    rmSync(dir, { recursive: true, force: true });
  };
  return { app, store, clock, dir, config, setupWords: setup.words, close };
}

export async function openCast(options: CastOptions = {}): Promise<Cast> {
  const empty = await openEmpty(options);
  const { app } = empty;
  const cookies = new Map<PersonKey, string>();
  const cookie = (who: PersonKey) => {
    const kept = cookies.get(who) ?? app.middenry.cookieOf(PEOPLE[who].id);
    cookies.set(who, kept);
    return kept;
  };
  const call: Cast['call'] = async (who, method, url, body, headers = {}) => {
    const answer = await app.inject({
      method: method as 'GET',
      url,
      ...(body === undefined ? {} : { payload: payloadOf(body) }),
      headers: {
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...(who === null ? {} : { cookie: cookie(who) }),
        ...headers,
      },
    });
    const isJson = String(answer.headers['content-type']).includes('json');
    return { status: answer.statusCode, body: isJson ? answer.json() : undefined, text: answer.body, headers: answer.headers };
  };
  const cast: Cast = { ...empty, call, cookie };
  if (options.from === undefined) await fill(cast, options);
  return cast;
}

/** What a cast holds by now, to begin others with; the caller removes it. */
export function copyOf({ store, dir }: Pick<Cast, 'store' | 'dir'>): string {
  const copy = mkdtempSync(join(tmpdir(), 'middenry-copy-'));
  cpSync(dir, copy, { recursive: true, filter: (path) => !path.startsWith(join(dir, STORE_FILE)) });
  store.sqlite.prepare('VACUUM INTO ?').run(join(copy, STORE_FILE));
  return copy;
}

/** Bytes as they are, everything else as JSON. */
export const payloadOf = (body: unknown): string | Buffer => (Buffer.isBuffer(body) ? body : JSON.stringify(body));

/** As if this person had set up an authenticator before (criteria E3). */
export function setUpSecondStep({ store, clock }: Pick<Cast, 'store' | 'clock'>, personId: string): void {
  const createdAt = clock.at.toISOString();
  write(store, () => {
    insertCredential(store, { personId, kind: 'totp', secret: newTotpSecret(), createdAt });
    markTotpOn(store, listCredentials(store, personId, 'totp')[0]!.id, 0, createdAt);
  });
}

async function fill(cast: Cast, { isDemo = false, secondStep = true }: CastOptions): Promise<void> {
  await cast.app.middenry.begin({
    programme: { id: uuid(9), name: 'Two Gardens', isDemo, timeZone: 'Europe/London' },
    coordinator: { id: PEOPLE.owner.id, name: PEOPLE.owner.name, email: 'ingrid@example.org' },
  });
  setUpSecondStep(cast, PEOPLE.owner.id);
  const make = async (url: string, body: unknown, method = 'POST') => {
    const answer = await cast.call('owner', method, url, body);
    if (answer.status >= 300) throw new Error(`Cannot set the stage at ${url}: ${answer.text}`);
  };
  await make('/api/sites', { id: SITES.meadow, name: 'Long Meadow', timeZone: 'Europe/London', minC: MIN_C, maxC: MAX_C });
  await make('/api/sites', { id: SITES.school, name: 'Hilltop School', timeZone: 'Europe/London' });
  for (const [key, { id, name, role, sites }] of Object.entries(PEOPLE)) {
    if (key === 'owner') continue;
    await make('/api/people', { id, name, role, siteIds: sites.map((site) => SITES[site]), isAdult: role !== 'pupil' });
  }
  setUpSecondStep(cast, PEOPLE.coordinator.id);
  await make(`/api/people/${PEOPLE.disabled.id}`, { disabled: true }, 'PATCH');
  await make('/api/bins', {
    ...binShape,
    id: BINS.tote,
    siteId: SITES.meadow,
    code: 'T1',
    name: 'Tote by the gate',
    kind: 'tote',
    zones: 2,
  });
  await make('/api/bins', {
    ...binShape,
    id: BINS.flow,
    siteId: SITES.meadow,
    code: 'F1',
    name: 'Flow-through',
    kind: 'flow-through',
    areaM2: 0.5,
    zones: 4,
  });
  await make('/api/bins', {
    ...binShape,
    id: BINS.school,
    siteId: SITES.school,
    code: 'S1',
    name: 'Corridor tray',
    kind: 'tray-stack',
    zones: 1,
  });
  if (!secondStep) for (const who of ['owner', 'coordinator'] as const) deleteCredentials(cast.store, PEOPLE[who].id, 'totp');
}

const MIN_C = [2, 2, 3, 5, 8, 11, 13, 13, 11, 8, 5, 3];
const MAX_C = [7, 8, 11, 14, 17, 20, 23, 22, 19, 15, 11, 8];
const binShape = {
  areaM2: 0.2,
  depthM: 0.35,
  startedOn: '2026-06-01',
  wormsKg: 0.5,
  bedWaterKg: 4,
  bed: [{ materialId: 'cardboard_corrugated', massKg: 2 }],
};
