/** A real server with many people, each with a phone that is signed in. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { Client } from './client.ts';
import { seedStore } from './load-seed.ts';
import { mostMemoryMb } from './process-use.ts';
import { type RunningServer, startOurs } from './server-process.ts';
import { uuid7 } from './uuid7.ts';

/** How long each rate is asked; a store of thousands, where every row costs more, has less. */
const SECONDS = { usual: 20, many: 10, manyBins: 1000 };
const LOOK_EVERY_MS = 2000;
/** What is not worked out by then is told as missing. */
const LOOK_WITHIN_MS = 720_000;
const [OK, CREATED] = [200, 201];
const NO_ANSWER = { status: 0, body: '' } as const;

export interface Phone {
  readonly personId: string;
  readonly cookie: string;
}

/** The first look at the board after a start with nothing kept. */
interface FirstLook {
  readonly tookS: number;
  /** Bins that the board did not have yet when there was no more time. */
  readonly missing: number;
  readonly boards: number;
  readonly slowestBoardMs: number;
  readonly refused: number;
  readonly notes: number;
  readonly slowestNoteMs: number;
}

export interface LoadStage {
  readonly server: RunningServer;
  readonly coordinator: Client;
  /** Somebody else's connection. */
  readonly beside: Client;
  readonly phones: readonly Phone[];
  readonly madeS: number;
  readonly entries: number;
  readonly look: FirstLook;
  readonly binIds: readonly string[];
  readonly foodId: string;
  readonly secondsPerRate: number;
  /** How many of these entries the store holds, read past the server. */
  countOf(ids: readonly string[]): number;
  /** The most memory that the server has held so far [MB]. */
  mostMemoryMb(): number;
  close(): Promise<void>;
}

export const feeding = ({ binIds, foodId }: Pick<LoadStage, 'binIds' | 'foodId'>, nth: number, happenedAt = new Date()) => ({
  id: uuid7(),
  binId: binIds[nth % binIds.length]!,
  happenedAt: happenedAt.toISOString(),
  zone: 1,
  items: [{ materialId: foodId, massKg: 0.2, how: 'guessed' }],
});

function countIn(file: string, ids: readonly string[]): number {
  const db = new Database(file, { readonly: true });
  const has = db.prepare('SELECT count(*) FROM entry WHERE id = ?').pluck();
  const count = ids.reduce((sum, id) => sum + Number(has.get(id)), 0);
  db.close();
  return count;
}

/** Looks at the board until it has every bin, while a volunteer goes on noting. */
async function lookFirst(reader: Client, cookie: string, note: (nth: number) => object): Promise<FirstLook> {
  const since = performance.now();
  const look = { boards: 0, slowestBoardMs: 0, refused: 0, notes: 0, slowestNoteMs: 0 };
  let missing = Number.NaN;
  const timed = async (work: () => Promise<unknown>): Promise<number> => {
    const began = performance.now();
    await work();
    return performance.now() - began;
  };
  for (;;) {
    let left = -1;
    const boardMs = await timed(async () => {
      const { status, body } = await reader.send('/api/board').catch(() => NO_ANSWER);
      if (status === OK) left = JSON.parse(body).waiting.length;
    });
    if (left >= 0) missing = left;
    const tookMs = performance.now() - since;
    if (left === 0 || tookMs > LOOK_WITHIN_MS) return { ...look, missing, tookS: tookMs / 1000 };
    if (left > 0) look.boards += 1;
    else look.refused += 1;
    look.slowestBoardMs = Math.max(look.slowestBoardMs, boardMs);
    const noteMs = await timed(async () => {
      // A connection of its own, as a phone's would be: one that was left idle may be closed just now.
      const volunteer = new Client(reader.origin);
      volunteer.cookie = cookie;
      const { status } = await volunteer
        .send('/api/feedings', { method: 'POST', body: JSON.stringify(note(look.notes)) })
        .catch(() => NO_ANSWER);
      volunteer.close();
      if (status === CREATED) look.notes += 1;
      else look.refused += 1;
    });
    look.slowestNoteMs = Math.max(look.slowestNoteMs, noteMs);
    await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS));
  }
}

/** Demonstration, people and bins until there are so many of each, and a first look at the board. */
export async function stageOf({ people, bins, years }: { people: number; bins: number; years: number }): Promise<LoadStage> {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-load-'));
  await (await startOurs(dir)).stop();
  const since = performance.now();
  const { phones, entries } = await seedStore(dir, { people, bins, years });
  const madeS = (performance.now() - since) / 1000;
  const server = await startOurs(dir);
  const [coordinator, beside] = [new Client(server.origin), new Client(server.origin)];
  let highestMb = 0;
  const close = async () => {
    coordinator.close();
    beside.close();
    await server.stop();
    rmSync(dir, { recursive: true, force: true });
  };
  try {
    beside.cookie = phones[0]!.cookie;
    await coordinator.enterDemo('coordinator');
    const itemsOf = async (path: string) => JSON.parse((await coordinator.ok(path)).body).items;
    const stuff: { id: string; kind: string; hidden: boolean }[] = await itemsOf('/api/materials');
    const all: { id: string; state: string }[] = await itemsOf('/api/bins');
    const binIds = all.filter(({ state }) => state === 'active').map(({ id }) => id);
    const foodId = stuff.find(({ kind, hidden }) => kind === 'food' && !hidden)!.id;
    const look = await lookFirst(coordinator, beside.cookie, (nth) => feeding({ binIds, foodId }, nth));
    return {
      ...{ server, coordinator, beside, phones, madeS, entries, look, binIds, foodId, close },
      secondsPerRate: bins >= SECONDS.manyBins ? SECONDS.many : SECONDS.usual,
      countOf: (ids) => countIn(join(dir, 'demo.db'), ids),
      // Others let the system's own mark begin anew.
      mostMemoryMb: () => {
        highestMb = Math.max(highestMb, mostMemoryMb(server.pid));
        return highestMb;
      },
    };
  } catch (error) {
    await close();
    throw error;
  }
}
