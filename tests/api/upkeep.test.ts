/** Coordinators are told of what the status page calls wrong, by a clock that the test moves (criteria F13, F31). */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { outlookOf } from '@middenry/domain';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { tellDue } from '../../apps/api/src/services/messages/keep-telling.ts';
import { useModel } from '../../apps/api/src/services/outlook-cache.ts';
import { BINS, type Cast, freshId, later, openCast, PEOPLE } from '../cast.ts';

const HOUR_MINUTES = 60;
const DAY_HOURS = 24;
let cast: Cast;
let isTight: boolean;
beforeEach(async () => {
  isTight = false;
  cast = await openCast({ room: () => ({ isTight: () => isTight, giveBack: () => undefined }) });
  // Nothing here is about bins.
  useModel(cast.store, (scenario, today, settings) => outlookOf({ ...scenario, members: 1 }, today, settings));
  await cast.app.middenry.keeper!.look();
});
afterEach(() => cast.close());

const harvest = async () => {
  const body = { id: freshId(), binId: BINS.tote, happenedAt: cast.clock.at.toISOString(), massKg: 1, destination: 'beds' };
  const cookie = cast.app.middenry.cookieOf(PEOPLE.volunteer.id);
  expect((await cast.call(null, 'POST', '/api/harvests', body, { cookie })).status).toBe(201);
};
type Row = { who: string; part: string; urgent: number; day: string };
const told = () =>
  cast.store.sqlite
    .prepare(
      `SELECT p.name AS who, json_extract(m.facts, '$.part') AS part, m.urgent, substr(m.occasion, -10) AS day
       FROM message m JOIN person p ON p.id = m.person_id WHERE m.kind = 'upkeep' ORDER BY m.occasion, p.name`,
    )
    .all() as Row[];
const BOTH = [PEOPLE.owner.name, PEOPLE.coordinator.name].sort();
const rows = (part: string, day: string, urgent = 1) => BOTH.map((who) => ({ who, part, urgent, day }));
/** As the server does: every twenty seconds, here every twenty minutes. */
async function hoursGoBy(hours: number, isKept = false): Promise<void> {
  for (let third = 0; third < hours * 3; third += 1) {
    later(cast, HOUR_MINUTES / 3);
    if (isKept) await cast.app.middenry.keeper!.look();
    await tellDue(cast.app.middenry);
  }
}

test('F13: where backups cannot be made each coordinator is told within the hour, once a day, and nobody once they can', async () => {
  await tellDue(cast.app.middenry);
  expect(told()).toEqual([]);
  const dir = join(cast.dir, 'backups');
  later(cast, HOUR_MINUTES);
  await harvest();
  rmSync(dir, { recursive: true });
  writeFileSync(dir, 'in the way');
  await expect(cast.app.middenry.keeper!.backUp('hourly')).rejects.toThrow(/EEXIST|ENOTDIR/);
  rmSync(dir);
  mkdirSync(dir);
  await hoursGoBy(1);
  expect(told()).toEqual(rows('backup', '2026-11-25'));
  await hoursGoBy(DAY_HOURS);
  expect(told()).toEqual([...rows('backup', '2026-11-25'), ...rows('backup', '2026-11-26')]);
  await cast.app.middenry.keeper!.look();
  await hoursGoBy(DAY_HOURS, true);
  expect(told()).toHaveLength(4);
});

test('F31: a full disk, an old trial restore and a check that no longer comes are told too', async () => {
  isTight = true;
  later(cast, 36 * DAY_HOURS * HOUR_MINUTES);
  await cast.app.middenry.keeper!.backUp('hourly');
  await hoursGoBy(1);
  expect(told()).toEqual([...rows('disk', '2026-12-31'), ...rows('drill', '2026-12-31', 0), ...rows('soundness', '2026-12-31', 0)]);
});

test('F14: by a clock in 1970 nobody is told that everything is old', async () => {
  isTight = true;
  cast.clock.at = new Date('1970-01-01T00:00:00.000Z');
  await hoursGoBy(1);
  expect(told()).toEqual([]);
});
