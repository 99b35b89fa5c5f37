/** A store with many people, bins and years of log, written while no server holds it. */
import { join } from 'node:path';
import { buildApp } from '../apps/api/src/app.ts';
import { readConfig } from '../apps/api/src/config.ts';
import { movableClock } from '../apps/api/src/context.ts';
import { openStore } from '../apps/api/src/db/open.ts';
import type { Store } from '../apps/api/src/db/store.ts';
import { addDays } from '../apps/api/src/services/local-time.ts';
import { fillUp, OLD_DAYS } from './board.ts';
import type { Client } from './client.ts';
import type { Phone } from './load-stage.ts';
import { uuid7 } from './uuid7.ts';

const DAYS_PER_YEAR = 365;
/** 100,000 over five years (D1). */
const ENTRIES_PER_YEAR = 20_000;
const CREATED = 201;

interface Wanted {
  readonly people: number;
  readonly bins: number;
  /** Of feedings behind the bins; 0 is a fortnight with two entries each. */
  readonly years: number;
}

export async function seedStore(
  dir: string,
  { people, bins, years }: Wanted,
): Promise<{ readonly phones: Phone[]; readonly entries: number }> {
  // What is made here is thrown away, so no disk is waited for.
  const store = openStore({ file: join(dir, 'demo.db'), throwAway: true });
  const app = await buildApp({ store, clock: movableClock(new Date()), config: readConfig({ DATA_DIR: dir }, []) });
  const ownerId = String(store.sql("SELECT person_id FROM membership WHERE role = 'coordinator' LIMIT 1").pluck().get());
  const headers = { cookie: app.middenry.cookieOf(ownerId) };
  const ok: Client['ok'] = async (url, { method = 'GET', body } = {}) => {
    const how = { method: method as 'GET' | 'POST', url, headers: { ...headers, 'content-type': 'application/json' } };
    const answer = await app.inject(body === undefined ? { method: how.method, url, headers } : { ...how, payload: body });
    if (answer.statusCode >= 300) throw new Error(`Cannot fill the stage: ${method} ${url} answered ${answer.body}`);
    return { status: answer.statusCode, headers: {}, body: answer.body, bytes: answer.rawPayload.length };
  };
  const phones: Phone[] = [];
  for (let at = 0; at < people; at += 1) {
    const id = uuid7();
    const { status } = await ok('/api/people', { method: 'POST', body: JSON.stringify({ id, name: `Helper ${at}`, role: 'volunteer' }) });
    if (status !== CREATED) throw new Error(`Cannot fill the stage: a person answered ${status}`);
    phones.push({ personId: id, cookie: app.middenry.cookieOf(id) });
  }
  await fillUp({ ok }, bins, Math.max(OLD_DAYS, years * DAYS_PER_YEAR));
  await app.close();
  if (years > 0) keepYears(store, years);
  const entries = Number(store.sql('SELECT count(*) FROM entry').pluck().get());
  store.sqlite.pragma('synchronous = FULL');
  store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
  store.sqlite.close();
  return { phones, entries };
}

/** Feedings of a few hundred grams, one bin after the other and one day after the other, until there are as many as belong to so many years. */
function keepYears({ sqlite }: Store, years: number): void {
  const bins = sqlite.prepare('SELECT id FROM bin WHERE state = ? AND started_on < ?').pluck();
  const from = addDays(new Date().toISOString().slice(0, 10), -years * DAYS_PER_YEAR);
  const old = bins.all('active', addDays(from, OLD_DAYS)) as string[];
  const has = Number(sqlite.prepare('SELECT count(*) FROM entry').pluck().get());
  const person = sqlite.prepare("SELECT person_id FROM membership WHERE role = 'volunteer' LIMIT 1").pluck().get();
  const entry = sqlite.prepare(
    `INSERT INTO entry (id, kind, bin_id, person_id, happened_at, local_date, received_at)
     VALUES (@id, 'feeding', @bin, @person, @at, substr(@at, 1, 10), @at)`,
  );
  const feeding = sqlite.prepare('INSERT INTO feeding (entry_id, zone) VALUES (?, ?)');
  const item = sqlite.prepare("INSERT INTO feeding_item (entry_id, seq, material_id, grams, how) VALUES (?, 0, 'apple', ?, 'weighed')");
  const count = years * ENTRIES_PER_YEAR - has;
  const daySpan = years * DAYS_PER_YEAR - 2;
  sqlite.transaction(() => {
    for (let at = 0; at < count; at += 1) {
      const id = uuid7();
      const day = 1 + Math.floor((at / count) * daySpan);
      entry.run({ id, bin: old[at % old.length], person, at: `${addDays(from, day)}T10:00:00.000Z` });
      feeding.run(id, 1 + (Math.floor(at / old.length) % 2));
      item.run(id, 100 + (at % 300));
    }
  })();
}
