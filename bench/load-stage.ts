/** A real server with many people, each with a phone that is signed in. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { buildApp } from '../apps/api/src/app.ts';
import { readConfig } from '../apps/api/src/config.ts';
import { movableClock } from '../apps/api/src/context.ts';
import { openStore } from '../apps/api/src/db/open.ts';
import { fillUp, firstLook } from './board.ts';
import { Client } from './client.ts';
import { type RunningServer, startOurs } from './server-process.ts';
import { uuid7 } from './uuid7.ts';

export interface Phone {
  readonly personId: string;
  readonly cookie: string;
}

export interface LoadStage {
  readonly server: RunningServer;
  readonly coordinator: Client;
  readonly phones: readonly Phone[];
  readonly firstLookS: number;
  readonly binIds: readonly string[];
  readonly foodId: string;
  /** How many of these entries the store holds, read past the server. */
  countOf(ids: readonly string[]): number;
  /** The most memory that the server has held so far [MB]. */
  mostMemoryMb(): number;
  close(): Promise<void>;
}

/** Volunteers with a session each, written while no server holds the store. */
async function signIn(dir: string, count: number): Promise<Phone[]> {
  const store = openStore({ file: join(dir, 'demo.db') });
  const app = await buildApp({ store, clock: movableClock(new Date()), config: readConfig({ DATA_DIR: dir }, []) });
  const ownerId = String(store.sql("SELECT person_id FROM membership WHERE role = 'coordinator' LIMIT 1").pluck().get());
  const headers = { cookie: app.middenry.cookieOf(ownerId) };
  const phones: Phone[] = [];
  for (let at = 0; at < count; at += 1) {
    const id = uuid7();
    const payload = { id, name: `Helper ${at}`, role: 'volunteer' };
    const answer = await app.inject({ method: 'POST', url: '/api/people', payload, headers });
    if (answer.statusCode !== 201) throw new Error(`Cannot fill the stage: ${answer.body}`);
    phones.push({ personId: id, cookie: app.middenry.cookieOf(id) });
  }
  await app.close();
  store.sqlite.close();
  return phones;
}

function countIn(file: string, ids: readonly string[]): number {
  const db = new Database(file, { readonly: true });
  const has = db.prepare('SELECT count(*) FROM entry WHERE id = ?').pluck();
  const count = ids.reduce((sum, id) => sum + Number(has.get(id)), 0);
  db.close();
  return count;
}

/** Demonstration, people and bins until there are so many of each, and a first look at the board. */
export async function stageOf({ people, bins }: { people: number; bins: number }): Promise<LoadStage> {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-load-'));
  await (await startOurs(dir)).stop();
  const phones = await signIn(dir, people);
  const server = await startOurs(dir);
  const coordinator = new Client(server.origin);
  await coordinator.enterDemo('coordinator');
  await fillUp(coordinator, bins);
  const firstLookS = (await firstLook(coordinator)) / 1000;
  const itemsOf = async (path: string) => JSON.parse((await coordinator.ok(path)).body).items;
  const stuff: { id: string; kind: string; hidden: boolean }[] = await itemsOf('/api/materials');
  const close = async () => {
    coordinator.close();
    await server.stop();
    rmSync(dir, { recursive: true, force: true });
  };
  return {
    ...{ server, coordinator, phones, firstLookS, close },
    binIds: (await itemsOf('/api/bins')).map(({ id }: { id: string }) => id),
    foodId: stuff.find(({ kind, hidden }) => kind === 'food' && !hidden)!.id,
    countOf: (ids) => countIn(join(dir, 'demo.db'), ids),
    mostMemoryMb: () => Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${server.pid}/status`, 'utf8'))?.[1]) / 1024,
  };
}
