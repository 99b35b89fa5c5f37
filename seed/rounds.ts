/** Shifts of a site by the week, who takes them, and who came. */
import { derivedId } from '../apps/api/src/services/id.ts';
import { addDays, daysBetween, startOf, weeklyFrom } from '../apps/api/src/services/local-time.ts';
import type { Chance } from './chance.ts';
import { type SiteStory, TIME_ZONE } from './world/sites.ts';

/** A request of somebody at a moment. */
export interface Task {
  readonly at: Date;
  readonly personId: string;
  readonly method: 'POST' | 'PATCH' | 'PUT' | 'DELETE';
  readonly url: string;
  readonly body?: object;
}

export interface RoundsScene {
  readonly site: SiteStory;
  readonly siteId: string;
  readonly binIds: readonly string[];
  readonly leadId: string;
  readonly volunteerIds: readonly string[];
  readonly began: string;
  readonly today: string;
  readonly chance: Chance;
}

const WEEKS_AHEAD = 5;
const WEEKS_AT_ONCE = 40;
const DAYS_OF_WEEK = 7;
/** A known Monday. */
const SOME_MONDAY = '2024-01-01';
const HOUR_MS = 3_600_000;

export function roundTasks(scene: RoundsScene): Task[] {
  const weeks = Math.ceil(daysBetween(scene.began, scene.today) / DAYS_OF_WEEK) + WEEKS_AHEAD;
  return scene.site.rounds.flatMap((round) => {
    const first = nextWeekday(scene.began, round.weekday);
    const tasks: Task[] = [];
    for (let from = 0; from < weeks; from += WEEKS_AT_ONCE) {
      const count = Math.min(WEEKS_AT_ONCE, weeks - from);
      tasks.push(...rowTasks(scene, round, { localDate: addDays(first, from * DAYS_OF_WEEK), count }));
    }
    return tasks;
  });
}

function rowTasks(scene: RoundsScene, round: SiteStory['rounds'][number], row: { localDate: string; count: number }): Task[] {
  const { chance, siteId, leadId, binIds } = scene;
  const made = startOf({ localDate: addDays(row.localDate, -12), localTime: '19:30', timeZone: TIME_ZONE }).startsAt;
  const id = chance.id(made);
  const { title, time: localTime, minutes, places } = round;
  const duties = binIds.map((binId) => ({ binId, kind: 'check' }));
  const body = { id, siteId, title, localDate: row.localDate, localTime, minutes, places, weeks: row.count, binIds, duties };
  const tasks: Task[] = [{ at: made, personId: leadId, method: 'POST', url: '/api/shifts', body }];
  weeklyFrom(row.localDate, row.count).forEach((localDate, week) => {
    const shiftId = week === 0 ? id : derivedId(id, `week ${week}`);
    tasks.push(...placeTasks(scene, { shiftId, localDate, localTime, minutes, places }));
  });
  return tasks;
}

interface ShiftOfRow {
  readonly shiftId: string;
  readonly localDate: string;
  readonly localTime: string;
  readonly minutes: number;
  readonly places: number;
}

/** People sign up some days before; of what is still to come only the next days are full. */
function placeTasks(scene: RoundsScene, shift: ShiftOfRow): Task[] {
  const { chance, volunteerIds, today } = scene;
  const { startsAt } = startOf({ ...shift, timeZone: TIME_ZONE });
  const daysAhead = daysBetween(today, shift.localDate);
  const wanted = daysAhead > DAYS_OF_WEEK * 2 ? 0 : daysAhead > 0 ? chance.whole(0, shift.places - 1) : chance.whole(1, shift.places);
  const first = chance.whole(0, volunteerIds.length - 1);
  return Array.from({ length: wanted }, (_, at) => volunteerIds[(first + at * 2) % volunteerIds.length]!).flatMap((personId, at) => {
    const signedUpAt = new Date(startsAt.getTime() - (chance.whole(20, 110) + Math.max(0, daysAhead) * 24) * HOUR_MS - at * 60_000);
    const signUpId = chance.id(signedUpAt);
    const url = `/api/shifts/${shift.shiftId}/sign-ups`;
    const take: Task = { at: signedUpAt, personId, method: 'POST', url, body: { id: signUpId } };
    const cameAt = new Date(startsAt.getTime() + shift.minutes * 60_000 + chance.whole(1, 40) * 60_000);
    const attended = chance.happens(0.93);
    const minutes = attended && chance.happens(0.3) ? shift.minutes + chance.pick([-15, 15, 30]) : null;
    return [take, { at: cameAt, personId, method: 'PATCH', url: `${url}/${signUpId}`, body: { attended, minutes } }];
  });
}

function nextWeekday(from: string, weekday: number): string {
  const passed = (((daysBetween(SOME_MONDAY, from) % DAYS_OF_WEEK) + DAYS_OF_WEEK) % DAYS_OF_WEEK) + 1;
  return addDays(from, (weekday - passed + DAYS_OF_WEEK) % DAYS_OF_WEEK);
}
