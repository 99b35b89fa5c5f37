/** Secret addresses of one's own shifts. */
import type { CalendarLink, CalendarLinkMade, CalendarLinkNew } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../../context.ts';
import {
  type CalendarLinkRow,
  calendarLinkById,
  calendarLinksOf,
  insertCalendarLink,
  revokeCalendarLink,
} from '../../db/repositories/calendar.ts';
import { findLink } from '../../db/repositories/link.ts';
import { type Store, write } from '../../db/store.ts';
import { refuse, refuseField } from '../../refusal.ts';
import { hashOf, newToken } from '../secret.ts';
import { lastReadAt } from './feed.ts';

/** One for each device, and some to spare. */
const MOST_LIVE = 10;

const shapeOf = (store: Store, { id, label, createdAt, revokedAt }: CalendarLinkRow): CalendarLink => ({
  ...{ id, label, createdAt },
  revoked: revokedAt !== null,
  lastReadAt: lastReadAt(store, id),
});

export const listCalendarLinks = (call: Signed): CalendarLink[] =>
  calendarLinksOf(call.store, call.who.personId).map((row) => shapeOf(call.store, row));

/** Makes an address; its secret is in this answer only, so the same id cannot be asked for twice. */
export function addCalendarLink(call: Signed, { id, label }: z.output<typeof CalendarLinkNew>): z.output<typeof CalendarLinkMade> {
  const { store, now, who } = call;
  return write(store, () => {
    if (findLink(store, id) !== undefined) throw refuse('same-id-other-content');
    if (calendarLinksOf(store, who.personId).filter(({ revokedAt }) => revokedAt === null).length >= MOST_LIVE)
      throw refuseField('/id', `would be more than ${MOST_LIVE} addresses: take one back first`);
    const token = newToken();
    insertCalendarLink(store, { id, label, personId: who.personId, tokenHash: hashOf(token), createdAt: now.toISOString() });
    call.audit('calendar-link-made', id);
    return { ...shapeOf(store, calendarLinkById(store, id)!), path: `/calendar/${token}.ics` };
  });
}

export function revokeLink(call: Signed, id: string, own: (mine: boolean) => void): CalendarLink {
  return write(call.store, () => {
    const row = calendarLinkById(call.store, id);
    if (row === null) throw refuse('not-found');
    own(row.personId === call.who.personId);
    revokeCalendarLink(call.store, id, call.now.toISOString());
    call.audit('calendar-link-revoked', id);
    return shapeOf(call.store, calendarLinkById(call.store, id)!);
  });
}
