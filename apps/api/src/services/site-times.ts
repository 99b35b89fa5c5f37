/** When a site is open, when it is closed, and how long a duty takes there. */
import type { SiteTimes, SiteTimesChange } from '@middenry/contract';
import { DUTY_KINDS, DUTY_MINUTES, type DutyKind, type SiteHours, weekdayOf } from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { closedOf, openingsOf, ownMinutesOf, setClosed, setOpenings, setOwnMinutes } from '../db/repositories/site-times.ts';
import { type Store, write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { siteOf } from './sites.ts';

const DAYS = [1, 2, 3, 4, 5, 6, 7] as const;
/** Until somebody says otherwise a site can be worked at by day. */
const USUAL_OPEN = DAYS.map((weekday) => ({ weekday, from: '09:00', to: '17:00' }));
const MINUTES_PER_HOUR = 60;

export function readSiteTimes({ store }: Pick<Context, 'store'>, siteId: string): z.output<typeof SiteTimes> {
  siteOf(store, siteId);
  const open = openingsOf(store, siteId);
  const own = ownMinutesOf(store, siteId);
  return {
    siteId,
    usual: open.length === 0,
    open: open.length === 0 ? USUAL_OPEN : open,
    closed: closedOf(store, siteId),
    minutes: DUTY_KINDS.map((kind) => {
      const set = own.find((row) => row.kind === kind);
      return { kind, minutes: set?.minutes ?? DUTY_MINUTES[kind].value, own: set !== undefined };
    }),
  };
}

export function putSiteTimes(call: Signed, siteId: string, body: z.output<typeof SiteTimesChange>): z.output<typeof SiteTimes> {
  return write(call.store, () => {
    siteOf(call.store, siteId);
    checkTimes(body);
    if (body.open) setOpenings(call.store, siteId, body.open);
    if (body.closed) setClosed(call.store, siteId, body.closed);
    if (body.minutes) setOwnMinutes(call.store, siteId, body.minutes);
    call.audit('site-times-changed', siteId, { fields: Object.keys(body) });
    return readSiteTimes(call, siteId);
  });
}

function checkTimes({ open = [], closed = [] }: z.output<typeof SiteTimesChange>): void {
  const backwards = open.findIndex(({ from, to }) => from >= to);
  if (backwards >= 0) throw refuseField(`/open/${backwards}/to`, 'must be later than it opens');
  const twice = open.findIndex(({ weekday }, at) => open.findIndex((other) => other.weekday === weekday) !== at);
  if (twice >= 0) throw refuseField(`/open/${twice}/weekday`, 'is there twice');
  const reversed = closed.findIndex(({ from, to }) => from > to);
  if (reversed >= 0) throw refuseField(`/closed/${reversed}/to`, 'must not be before the first day');
}

export const minuteOfDay = (localTime: string): number => Number(localTime.slice(0, 2)) * MINUTES_PER_HOUR + Number(localTime.slice(3));

export function timeOfMinute(minute: number): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${two(Math.floor(minute / MINUTES_PER_HOUR))}:${two(minute % MINUTES_PER_HOUR)}`;
}

/** The same as gathering shifts wants it. */
export function siteHours(store: Store, siteId: string): SiteHours {
  const { open, closed } = readSiteTimes({ store }, siteId);
  const dutyMinutes = Object.fromEntries(ownMinutesOf(store, siteId).map(({ kind, minutes }) => [kind, minutes])) as Partial<
    Record<DutyKind, number>
  >;
  return {
    siteId,
    open: open.map(({ weekday, from, to }) => ({ weekday, fromMinute: minuteOfDay(from), toMinute: minuteOfDay(to) })),
    closed: closed.map(({ from, to }) => ({ from, to })),
    dutyMinutes,
  };
}

/** Nobody can be there on a closed day. */
export function refuseClosedDay(hours: SiteHours, localDate: string, pointer: string): void {
  if (isClosed(hours, localDate)) throw refuse('site-closed', { errors: [{ pointer, message: 'is a day on which the site is closed' }] });
}

export const isClosed = ({ closed, open }: SiteHours, localDate: string): boolean =>
  closed.some(({ from, to }) => from <= localDate && localDate <= to) || !open.some(({ weekday }) => weekday === weekdayOf(localDate));
