/**
 * The archive of this commit, built as a keeper builds it, gone over to and back from: F35 at length, with the time that each took.
 * Asks npm's registry for what the machine's npm does not hold yet.
 */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { root } from '../../scripts/lib.mjs';
import { PASSWORD } from '../cast.ts';
import { ask, beginGarden, email, harvest } from './orchard.ts';
import { Machine } from './releases.ts';
import { Folders } from './stage.ts';

const folders = new Folders();
let machine: Machine;
afterAll(() => {
  machine.service('stop');
  folders.remove();
  // Two whole releases with their packages, on a machine that may be busy.
}, 600_000);

function headInto(tree: string): void {
  const { status, stderr } = spawnSync('sh', ['-euc', 'git archive HEAD | tar -x -C "$1"', 'sh', tree], { cwd: root, encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
}

/** On a connection of its own: one that is kept does not outlive the server that it was made to. */
const get = (path: string) => fetch(machine.url + path, { headers: { connection: 'close' } });

async function timed<T>(what: () => T): Promise<{ took: number; came: T }> {
  const began = performance.now();
  const came = await what();
  return { came, took: Math.round((performance.now() - began) / 1000) };
}

test('F35: a whole release is built and gone over to by one command, and back within five minutes by another', async () => {
  machine = await Machine.at(folders.fresh());
  const first = await timed(() => machine.firstRelease(machine.archive('middenry-0.1.0', headInto), 'middenry-0.1.0'));
  machine.service('start');
  await expect
    .poll(
      () =>
        get('/readyz').then(
          ({ ok }) => ok,
          () => false,
        ),
      { timeout: 120_000 },
    )
    .toBe(true);
  const { cookie, recoveryCodes } = await beginGarden(machine.url, machine.journal());

  const next = machine.archive('middenry-0.2.0', (tree) => {
    headInto(tree);
    writeFileSync(join(tree, 'migrations/9998_of_a_release_to_come.sql'), "ALTER TABLE site ADD COLUMN later TEXT NOT NULL DEFAULT '';");
  });
  const over = await timed(() => machine.middenry(['upgrade', next]));
  expect(over.came, over.came.text).toMatchObject({ code: 0 });
  expect((await get('/sign-in')).status).toBe(200);
  const after = harvest();
  expect((await ask(machine.url, 'POST', '/api/harvests', after, cookie)).status).toBe(201);
  const doctor = machine.middenry(['doctor']);
  expect(doctor.text).toMatch(/well/);

  const back = await timed(() => machine.middenry(['rollback']));
  expect(back.came).toEqual({ code: 0, text: expect.stringMatching(/Since then 1 more entries[\s\S]*0\.1\.0 runs again/) });
  expect(back.took).toBeLessThan(300);
  const session = await ask(machine.url, 'POST', '/api/session', { email, password: PASSWORD, code: recoveryCodes[0] });
  expect(session.status).toBe(201);
  expect((await ask(machine.url, 'GET', `/api/entries/${after.id}`, undefined, session.cookie)).status).toBe(404);
  console.log(`first release ${first.took} s, upgrade ${over.took} s, rollback ${back.took} s`);
});
