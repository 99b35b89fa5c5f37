/** When somebody can come, what they can do, and how often they would like to. */
import type { Availability, AvailabilityChange, Shift, ShiftNeedsChange } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import {
  availabilityRows,
  type PersonTimeRow,
  setPersonAway,
  setPersonSites,
  setPersonSkills,
  setPersonTimes,
  setPersonWish,
  setShiftNeeds,
} from '../db/repositories/availability.ts';
import { findSite } from '../db/repositories/site.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { personOf } from './people.ts';
import { readShift, shiftOrRefuse } from './shifts.ts';

type Body = z.output<typeof AvailabilityChange>;

export function readAvailability({ store }: Pick<Context, 'store'>, personId: string): Availability {
  if (personOf(store, personId).role === 'pupil') throw refuse('not-found');
  const { wish, weekly, away, skills, siteIds } = availabilityRows(store, personId);
  return {
    personId,
    weekly: [...weekly],
    away: [...away],
    skills: [...skills],
    siteIds: [...siteIds],
    wish: wish === null || wish.wishCount === null ? null : { count: wish.wishCount, per: wish.wishPer },
    capPerWeek: wish?.capPerWeek ?? null,
    capPerDay: wish?.capPerDay ?? null,
    saidAt: wish?.saidAt ?? null,
  };
}

/** What is left out stays; a coordinator may note down what somebody told them. */
export function putAvailability(call: Signed, personId: string, body: Body): Availability {
  const { store } = call;
  return write(store, () => {
    const before = readAvailability(call, personId);
    checkAvailability(call, body);
    if (body.weekly) setPersonTimes(store, personId, body.weekly);
    if (body.away) setPersonAway(store, personId, body.away);
    if (body.skills) setPersonSkills(store, personId, body.skills);
    if (body.siteIds) setPersonSites(store, personId, body.siteIds);
    const { wish, capPerWeek, capPerDay } = { ...before, ...body };
    setPersonWish(store, personId, {
      wishCount: wish?.count ?? null,
      wishPer: wish?.per ?? 'month',
      capPerWeek,
      capPerDay,
      saidAt: call.now.toISOString(),
    });
    if (personId !== call.who.personId) call.audit('availability-noted', personId, { fields: Object.keys(body) });
    return readAvailability(call, personId);
  });
}

function checkAvailability({ store }: Context, { weekly = [], away = [], siteIds = [] }: Body): void {
  const backwards = weekly.findIndex(({ from, to }) => from >= to);
  if (backwards >= 0) throw refuseField(`/weekly/${backwards}/to`, 'must be later than it begins');
  const over = weekly.findIndex((one, at) => weekly.slice(0, at).some((other) => overlap(one, other)));
  if (over >= 0) throw refuseField(`/weekly/${over}/from`, 'is in another time of that day');
  const reversed = away.findIndex(({ from, to }) => from > to);
  if (reversed >= 0) throw refuseField(`/away/${reversed}/to`, 'must not be before the first day');
  const strange = siteIds.findIndex((siteId) => findSite(store, siteId) === undefined);
  if (strange >= 0) throw refuseField(`/siteIds/${strange}`, 'is no site');
}

const overlap = (one: PersonTimeRow, other: PersonTimeRow): boolean =>
  one.weekday === other.weekday && one.from < other.to && other.from < one.to;

export function putShiftNeeds(
  call: Signed,
  shiftId: string,
  body: z.output<typeof ShiftNeedsChange>,
  ownSite: (siteId: string) => void,
): Shift {
  return write(call.store, () => {
    const shift = shiftOrRefuse(call, shiftId);
    ownSite(shift.siteId);
    if (shift.cancelledAt !== null) throw refuse('shift-cancelled');
    const twice = body.needs.findIndex(({ skill }, at) => body.needs.findIndex((other) => other.skill === skill) !== at);
    if (twice >= 0) throw refuseField(`/needs/${twice}/skill`, 'is there twice');
    const asked = body.needs.reduce((sum, { places }) => sum + places, 0);
    if (asked > shift.places) throw refuseField('/needs', `must be at most the ${shift.places} places of the shift`);
    setShiftNeeds(call.store, shiftId, body.needs);
    call.audit('shift.needs-changed', shiftId, { needs: body.needs });
    return readShift(call, shiftId);
  });
}
