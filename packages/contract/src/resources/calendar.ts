/** A person's own shifts for their calendar: a secret address each, by RFC 5545 and RFC 7986. */
import * as z from 'zod';
import { ClientId, Id, Instant } from '../common.ts';
import { everyone, grownUps, owners, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

export const CalendarLink = z.object({
  id: Id,
  label: z.string(),
  createdAt: Instant,
  revoked: z.boolean(),
  lastReadAt: Instant.nullable().describe('when a calendar last asked, since the server was started'),
});
export type CalendarLink = z.infer<typeof CalendarLink>;
export const CalendarLinkNew = z.object({ id: ClientId, label: z.string().trim().max(80).default('') }).strict();
export const CalendarLinkMade = CalendarLink.extend({
  path: z.string().describe('address below the public address, shown once, such as /calendar/….ics'),
});
const FileParams = z.object({ file: z.string().regex(/^[\w-]{22,64}\.ics$/) });

export const calendarRoutes = [
  {
    method: 'GET',
    path: '/api/calendar-links',
    name: 'listCalendarLinks',
    summary: 'My calendar addresses, without their secrets',
    tag: 'calendar',
    access: grownUps,
    own: 'nothing',
    answer: z.object({ items: z.array(CalendarLink) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/calendar-links',
    name: 'addCalendarLink',
    summary: 'Make a secret address of my shifts for a calendar',
    tag: 'calendar',
    access: grownUps,
    own: 'nothing',
    body: CalendarLinkNew,
    answer: CalendarLinkMade,
    status: 201,
  },
  {
    method: 'DELETE',
    path: '/api/calendar-links/:id',
    name: 'revokeCalendarLink',
    summary: 'Make a calendar address useless at once',
    tag: 'calendar',
    access: { ...owners, pupil: 'none' },
    own: 'person',
    params: IdParams,
    answer: CalendarLink,
    status: 200,
  },
  {
    method: 'GET',
    path: '/calendar/:file',
    name: 'readCalendar',
    summary: "The shifts of whoever made this address, as iCalendar; nobody else's name is in it",
    tag: 'calendar',
    access: everyone,
    own: 'nothing',
    params: FileParams,
    status: 200,
    contentType: 'text/calendar; charset=utf-8',
  },
  {
    method: 'GET',
    path: '/api/shifts/:id/calendar.ics',
    name: 'readShiftCalendar',
    summary: 'One shift as a file for a calendar',
    tag: 'calendar',
    access: grownUps,
    own: 'nothing',
    params: IdParams,
    status: 200,
    contentType: 'text/calendar; charset=utf-8',
  },
] as const satisfies readonly RouteSpec[];
