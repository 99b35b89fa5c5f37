import type { RouteName } from '@middenry/contract';
import { insertCalendarLink } from '../../../apps/api/src/db/repositories/calendar.ts';
import { insertMail, takeMail } from '../../../apps/api/src/db/repositories/mail.ts';
import { insertMessage } from '../../../apps/api/src/db/repositories/message.ts';
import { messageSetting, putMessageSetting } from '../../../apps/api/src/db/repositories/message-setting.ts';
import { hashOf } from '../../../apps/api/src/services/secret.ts';
import { freshId, PEOPLE, type PersonKey } from '../../cast.ts';
import type { Make } from './sample.ts';
import type { Stage } from './stage.ts';

const message = {
  kind: 'reminder-day',
  facts: '{}',
  urgent: 0,
  madeAt: '2026-11-25T09:00:00.000Z',
  goodUntil: null,
};
const idOf = (who: PersonKey | null) => PEOPLE[who ?? 'volunteer'].id;

/** An address that is confirmed, or waits for the code 123456. */
function giveAddress({ cast }: Stage, who: PersonKey | null, confirmed: boolean): void {
  const personId = idOf(who);
  const code = { codeHash: hashOf(personId, '123456'), codeUntil: '2026-11-25T10:15:00.000Z' };
  const row = { ...messageSetting(cast.store, personId), address: 'somebody@example.org' };
  putMessageSetting(cast.store, { ...row, ...(confirmed ? { confirmedAt: message.madeAt, mail: 1 } : code) });
}

/** A mail to the volunteer that holds this token. */
function mailWith({ cast, shiftId }: Stage, token: string): void {
  const [messageId, id, personId] = [freshId(), freshId(), PEOPLE.volunteer.id];
  insertMessage(cast.store, { ...message, id: messageId, occasion: '2026-12-05', shiftId, personId });
  const at = message.madeAt;
  const times = { madeAt: at, nextTryAt: at, goodUntil: '2026-12-05T10:00:00.000Z' };
  insertMail(cast.store, { id, kind: 'message', personId, messageId, address: 'otis@example.org', urgent: 0, secret: null, ...times });
  takeMail(cast.store, id, hashOf(token));
}

/** A calendar address of the volunteer. */
function linkWith(store: Stage['cast']['store'], id: string, token: string): void {
  insertCalendarLink(store, { id, personId: PEOPLE.volunteer.id, label: '', createdAt: message.madeAt, tokenHash: hashOf(token) });
}

/** What people are told, and how. */
export const messageSamples = {
  listMessages: () => ({ who: 'volunteer', url: '/api/messages?limit=20' }),
  readMessages: () => {
    const id = freshId();
    return {
      who: 'volunteer',
      url: '/api/messages/read',
      body: { ids: [id] },
      ready: ({ cast }, who) => {
        insertMessage(cast.store, { ...message, id, occasion: id, shiftId: null, personId: idOf(who) });
      },
    };
  },
  readMessageSetting: () => ({ who: 'volunteer', url: '/api/message-setting' }),
  changeMessageSetting: () => ({
    who: 'volunteer',
    url: '/api/message-setting',
    body: { remindDay: false, quietFrom: '22:00', quietTo: '06:30' },
    also: [{ name: 'mail without an address', value: { mail: true } }],
  }),
  putMailAddress: () => ({ who: 'volunteer', url: '/api/message-setting/address', body: { address: 'otis@example.org' } }),
  confirmMailAddress: () => ({
    who: 'volunteer',
    url: '/api/message-setting/address/confirm',
    body: { code: '123456' },
    ready: (stage, who) => giveAddress(stage, who, false),
  }),
  dropMailAddress: () => ({ who: 'volunteer', url: '/api/message-setting/address' }),
  readMail: () => ({ who: 'coordinator', url: '/api/mail' }),
  testMail: () => ({ who: 'coordinator', url: '/api/mail/tests', body: {}, ready: (stage, who) => giveAddress(stage, who, true) }),
  listTold: ({ shiftId, schoolShiftId }) => ({
    who: 'siteLead',
    url: `/api/shifts/${shiftId}/told`,
    params: { id: shiftId },
    notTheirs: [{ who: 'siteLead', url: `/api/shifts/${schoolShiftId}/told` }],
  }),
  readReply: () => {
    const token = 'a-token-of-a-mail-that-is-there';
    return { who: null, url: '/api/reply-cards', body: { token }, ready: (stage) => mailWith(stage, token) };
  },
  sendReply: () => {
    const token = 'a-token-of-a-mail-that-is-there';
    return {
      who: null,
      url: '/api/replies',
      body: { token, does: 'give-back' },
      ready: (stage) => mailWith(stage, token),
    };
  },
  listCalendarLinks: () => ({ who: 'volunteer', url: '/api/calendar-links' }),
  addCalendarLink: () => ({ who: 'volunteer', url: '/api/calendar-links', body: { id: freshId(), label: 'My phone' } }),
  revokeCalendarLink: () => {
    const id = freshId();
    const url = `/api/calendar-links/${id}`;
    return {
      who: 'volunteer',
      url,
      params: { id },
      ready: ({ cast }) => linkWith(cast.store, id, freshId()),
      notTheirs: [{ who: 'otherVolunteer', url }],
    };
  },
  readCalendar: () => {
    const file = 'a-token-of-a-calendar-that-is-there.ics';
    return {
      who: null,
      url: `/calendar/${file}`,
      params: { file },
      ready: ({ cast }) => linkWith(cast.store, freshId(), file.slice(0, -4)),
    };
  },
  readShiftCalendar: ({ shiftId }) => ({ who: 'volunteer', url: `/api/shifts/${shiftId}/calendar.ics`, params: { id: shiftId } }),
  readGroupText: () => ({ who: 'volunteer', url: '/api/group-text?days=14' }),
} satisfies Partial<Record<RouteName, Make>>;
