/** Going over to a newer release and back, each by one command (criterion F35, docs/how-to/upgrade-and-roll-back.md). */
import { renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PASSWORD } from '../cast.ts';
import { ask, beginGarden, email, harvest } from './orchard.ts';
import { builtTree, Machine } from './releases.ts';
import { Folders } from './stage.ts';

const folders = new Folders();
let machine: Machine;
let cookie: string;
let recoveryCodes: string[];

const withMigration = (tree: string): void => {
  builtTree(tree);
  writeFileSync(join(tree, 'migrations/9998_of_a_release_to_come.sql'), "ALTER TABLE site ADD COLUMN later TEXT NOT NULL DEFAULT '';");
};
const state = () => [machine.points('current'), machine.points('previous'), machine.pid()];
const note = async (): Promise<string> => {
  const body = harvest();
  expect((await ask(machine.url, 'POST', '/api/harvests', body, cookie)).status).toBe(201);
  return body.id;
};
const statusOf = async (id: string) => (await ask(machine.url, 'GET', `/api/entries/${id}`, undefined, cookie)).status;
/** A store brought back signs everybody out. */
async function signInAgain(): Promise<void> {
  const answer = await ask(machine.url, 'POST', '/api/session', { email, password: PASSWORD, code: recoveryCodes.pop() });
  expect(answer.status).toBe(201);
  cookie = answer.cookie;
}
async function ready(): Promise<void> {
  for (let tries = 0; tries < 300; tries += 1) {
    const answer = await fetch(`${machine.url}/readyz`, { headers: { connection: 'close' } }).catch(() => null);
    if (answer?.ok) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`not ready within half a minute:\n${machine.journal()}`);
}

beforeAll(async () => {
  machine = await Machine.at(folders.fresh());
  machine.firstRelease(
    machine.archive('middenry-0.1.0', (tree) => builtTree(tree)),
    'middenry-0.1.0',
  );
  machine.service('start');
  await ready();
  ({ cookie, recoveryCodes } = await beginGarden(machine.url, machine.journal()));
}, 120_000);
afterAll(() => {
  machine.service('stop');
  folders.remove();
});

describe('F35: an upgrade', () => {
  it('that cannot be begun changes nothing, and says why', { timeout: 60_000 }, async () => {
    const before = state();
    const cut = join(machine.data, '..', 'cut.tar.gz');
    writeFileSync(cut, 'not an archive');
    const two = machine.archive('elsewhere-1', (tree) => writeFileSync(join(tree, 'x'), ''));
    const odd = machine.archive('middenry-$(id)', (tree) => writeFileSync(join(tree, 'x'), ''));
    const here = machine.archive('middenry-0.1.0-b', (tree) => builtTree(tree, { build: 'exit 7' }));
    const refusals = [[], ['/nowhere/middenry-9.tar.gz'], [cut], [two], [odd], [here]].map((args) =>
      machine.middenry(['upgrade', ...args]),
    );
    expect(refusals.map(({ code }) => code)).toEqual([2, 2, 2, 2, 2, 2]);
    const words = [/which release/, /no file .*middenry-9/, /no archive/, /holds no release/, /odd name/, /could not be built.*still runs/];
    refusals.forEach(({ text }, at) => {
      expect(text).toMatch(words[at]!);
    });
    expect(machine.hasRelease('middenry-0.1.0-b')).toBe(false);
    expect(machine.middenry(['rollback'])).toEqual({
      code: 2,
      text: expect.stringMatching(/no release to go back to.*Nothing was changed/),
    });
    expect(state()).toEqual(before);
    await note();
  });

  it('whose program never gets ready goes back by itself, with the store as it was', { timeout: 120_000 }, async () => {
    const kept = await note();
    const deaf = machine.archive('middenry-0.1.9', (tree) => {
      withMigration(tree);
      // It changes the schema and then listens where nobody asks.
      renameSync(join(tree, 'apps/api/build/server.mjs'), join(tree, 'apps/api/build/real.mjs'));
      writeFileSync(join(tree, 'apps/api/build/server.mjs'), "process.env.PORT = '0';\nawait import('./real.mjs');\n");
    });
    const gone = machine.middenry(['upgrade', deaf], { MIDDENRY_PATIENCE: '15' });
    expect(gone).toEqual({
      code: 1,
      text: expect.stringMatching(/0\.1\.9 did not get ready[\s\S]*0 more entries[\s\S]*0\.1\.0 runs again/),
    });
    expect([machine.points('current'), machine.points('previous')]).toEqual(['middenry-0.1.0', null]);
    await signInAgain();
    expect(await statusOf(kept)).toBe(200);
  });

  it('goes over in one command, and rollback goes back in one and says what came after', { timeout: 120_000 }, async () => {
    const kept = await note();
    const next = machine.archive('middenry-0.2.0', withMigration);
    const over = machine.middenry(['upgrade', next]);
    expect(over).toEqual({ code: 0, text: expect.stringMatching(/middenry-0\.2\.0 runs\. .*middenry rollback\n$/) });
    expect([machine.points('current'), machine.points('previous')]).toEqual(['middenry-0.2.0', 'middenry-0.1.0']);
    expect(await statusOf(kept)).toBe(200);
    const after = await note();
    const twice = machine.middenry(['upgrade', next]);
    expect(twice).toEqual({ code: 2, text: expect.stringMatching(/is there already\. Nothing was changed/) });

    const back = machine.middenry(['rollback']);
    expect(back).toEqual({
      code: 0,
      text: expect.stringMatching(/before-schema-9998-[\s\S]*Since then 1 more entries .*before-restore-[\s\S]*0\.1\.0 runs again/),
    });
    expect([machine.points('current'), machine.points('previous')]).toEqual(['middenry-0.1.0', null]);
    await signInAgain();
    expect([await statusOf(kept), await statusOf(after)]).toEqual([200, 404]);
  });

  it('without a change of the schema loses nothing on the way back', { timeout: 120_000 }, async () => {
    expect(machine.middenry(['upgrade', machine.archive('middenry-0.3.0', (tree) => builtTree(tree))])).toMatchObject({ code: 0 });
    const after = await note();
    const back = machine.middenry(['rollback']);
    expect(back).toEqual({ code: 0, text: expect.stringMatching(/nothing to go back from[\s\S]*0\.1\.0 runs again/) });
    expect(await statusOf(after)).toBe(200);
  });
});
