/**
 * One of several servers on one database, each in a process of its own. It answers one request of the race whenever it is told to;
 * told `naive`, it looks first and writes afterwards, without a transaction, as a careless product would.
 */
import { buildApp } from '../../../apps/api/src/app.ts';
import { readConfig } from '../../../apps/api/src/config.ts';
import { movableClock } from '../../../apps/api/src/context.ts';
import { openStore } from '../../../apps/api/src/db/open.ts';
import { TAKE_PLACE } from '../../../apps/api/src/db/repositories/sign-up.ts';
import type { Store } from '../../../apps/api/src/db/store.ts';
import type { RaceAnswer, RaceRequest } from './last-place.ts';

const [file, dir] = process.argv.slice(2) as [string, string];
const store = openStore({ file });
const clock = movableClock(new Date());
const config = readConfig({ DATA_DIR: dir }, []);
const solver = { solve: () => Promise.reject(new Error('nobody asks')), close: async () => undefined };
const apps = {
  statement: await buildApp({ store, clock, config, solver }),
  naive: await buildApp({ store: careless(store), clock, config, solver }),
};

process.on('message', async ({ way, at, cookie, url, body }: RaceRequest) => {
  clock.at = new Date(at);
  const headers = { cookie, 'content-type': 'application/json' };
  const answer = await apps[way].inject({ method: 'POST', url, payload: JSON.stringify(body), headers });
  const { code, help } = answer.json();
  process.send?.({
    status: answer.statusCode,
    code,
    waitingCount: help?.waitingCount,
    nearest: help?.nearest?.length,
  } satisfies RaceAnswer);
});
process.on('disconnect', () => process.exit());
process.send?.('ready');

/** The same store, but nothing is one transaction, and a place is looked for before it is taken. */
function careless(real: Store): Store {
  const taken = real.sql('SELECT count(*) FROM sign_up WHERE shift_id = ? AND given_back_at IS NULL').pluck();
  const places = real.sql('SELECT places FROM shift WHERE id = ?').pluck();
  const insert = real.sql('INSERT INTO sign_up (id, shift_id, person_id, taken_at) VALUES (@id, @shiftId, @personId, @at)');
  const blink = new Int32Array(new SharedArrayBuffer(4));
  const run = ({ keepsOffers: _none, ...wish }: { shiftId: string; keepsOffers: number }) => {
    if (Number(taken.get(wish.shiftId)) >= Number(places.get(wish.shiftId))) return { changes: 0 };
    // What any real handler does in between takes at least this long.
    Atomics.wait(blink, 0, 0, 30);
    return insert.run(wish);
  };
  const { pragma } = real.sqlite;
  const sqlite = {
    inTransaction: false,
    pragma: pragma.bind(real.sqlite),
    transaction: (work: () => unknown) => ({ immediate: work }),
  };
  return { ...real, sql: (text: string) => (text === TAKE_PLACE ? { run } : real.sql(text)), sqlite } as unknown as Store;
}
