/** Who covers the coming weeks, as far as it needs to be seen first: pupils with their grown-ups, and a place that somebody would hand over. */
import type { Shift } from '@middenry/contract';
import { addDays } from '../apps/api/src/services/local-time.ts';
import { chanceOf } from './chance.ts';
import type { Task } from './rounds.ts';
import type { Teller } from './teller.ts';
import type { SiteKey } from './world/sites.ts';

export interface CoverScene {
  readonly teller: Teller;
  readonly at: Date;
  readonly today: string;
  readonly ownerId: string;
  readonly siteIds: ReadonlyMap<SiteKey, string>;
  readonly leadIds: ReadonlyMap<SiteKey, string>;
  readonly volunteerIds: ReadonlyMap<SiteKey, readonly string[]>;
}

const PUPILS_OF_CLUB = 12;
const DAYS_AHEAD = 15;
const SCHOOL_WEEKDAYS = [1, 2, 3, 4, 5];
const BREAK_FROM_DAYS = 26;
const BREAK_DAYS = 9;
const SAID_WHEN = 0.75;
const AWAY_EVERY = 9;

export async function cover(scene: CoverScene): Promise<void> {
  const chance = chanceOf('covering');
  const send = (personId: string, method: Task['method'], url: string, body?: object) =>
    scene.teller.send({ at: scene.at, personId, method, url, ...(body ? { body } : {}) });
  const newId = () => chance.id(scene.at);
  await openSchool(scene, send);
  await bringPupils(scene, send, newId);
  await handOver(scene, send, newId);
  await sayWhen(scene, send);
}

type Send = (personId: string, method: Task['method'], url: string, body?: object) => Promise<void>;

/** Open on school days; the next break is a few weeks off. */
async function openSchool({ siteIds, leadIds, today }: CoverScene, send: Send): Promise<void> {
  const from = addDays(today, BREAK_FROM_DAYS);
  await send(leadIds.get('school')!, 'PUT', `/api/sites/${siteIds.get('school')}/times`, {
    open: SCHOOL_WEEKDAYS.map((weekday) => ({ weekday, from: '08:15', to: '16:30' })),
    closed: [{ from, to: addDays(from, BREAK_DAYS), label: 'School break' }],
  });
}

/** The next meeting of the club has its two grown-ups; the one after it still needs one. */
async function bringPupils(scene: CoverScene, send: Send, newId: () => string): Promise<void> {
  const leadId = scene.leadIds.get('school')!;
  const volunteerIds = scene.volunteerIds.get('school')!;
  for (const id of [leadId, ...volunteerIds.slice(0, 3)]) await send(scene.ownerId, 'PATCH', `/api/people/${id}`, { cleared: true });
  const classId = newId();
  await send(leadId, 'POST', '/api/classes', {
    ...{ id: classId, siteId: scene.siteIds.get('school'), name: 'Worm club', ageBand: '9-12' },
  });
  const [next, later] = await comingShifts(scene, 'school');
  for (const [shift, adults] of [
    [next, [leadId, volunteerIds[0]!]],
    [later, [leadId]],
  ] as const) {
    if (!shift) continue;
    for (const { id, personId } of shift.signUps) await send(personId, 'DELETE', `/api/shifts/${shift.id}/sign-ups/${id}`);
    for (const personId of adults) await send(personId, 'POST', `/api/shifts/${shift.id}/sign-ups`, { id: newId() });
    await send(leadId, 'PATCH', `/api/shifts/${shift.id}`, { pupilPlaces: PUPILS_OF_CLUB });
    await send(leadId, 'POST', `/api/shifts/${shift.id}/groups`, { id: newId(), classId, pupils: PUPILS_OF_CLUB });
  }
}

/** Somebody at the garden cannot come to the second of the coming rounds, and offers the place to anybody. */
async function handOver(scene: CoverScene, send: Send, newId: () => string): Promise<void> {
  const shift = (await comingShifts(scene, 'garden'))[1];
  if (!shift) return;
  const taken = shift.signUps[0];
  const personId = taken?.personId ?? scene.volunteerIds.get('garden')![0]!;
  const signUpId = taken?.id ?? newId();
  if (!taken) await send(personId, 'POST', `/api/shifts/${shift.id}/sign-ups`, { id: signUpId });
  await send(personId, 'POST', `/api/shifts/${shift.id}/swaps`, { id: newId(), signUpId });
}

/** Most people said when they can come and how often they would like to; two of them are away for a while. */
async function sayWhen({ volunteerIds, today }: CoverScene, send: Send): Promise<void> {
  const chance = chanceOf('availability');
  const all = [...volunteerIds.values()].flat();
  for (const [at, personId] of all.entries()) {
    if (!chance.happens(SAID_WHEN)) continue;
    const weekend = { weekday: chance.pick([6, 7]), from: '09:00', to: '14:00', liking: 'glad' };
    const evening = { weekday: chance.whole(1, 5), from: '15:00', to: '20:00', liking: 'can' };
    await send(personId, 'PUT', `/api/people/${personId}/availability`, {
      weekly: [weekend, evening],
      away: at % AWAY_EVERY === 0 ? [{ from: addDays(today, 6), to: addDays(today, 16) }] : [],
      wish: { count: chance.whole(1, 3), per: 'month' },
    });
  }
}

async function comingShifts({ teller, at, ownerId, siteIds, today }: CoverScene, site: SiteKey): Promise<readonly Shift[]> {
  const url = `/api/shifts?siteId=${siteIds.get(site)}&from=${addDays(today, 1)}&to=${addDays(today, DAYS_AHEAD)}`;
  const { items } = (await teller.read(at, ownerId, url)) as { items: Shift[] };
  return items.filter(({ cancelled }) => !cancelled);
}
