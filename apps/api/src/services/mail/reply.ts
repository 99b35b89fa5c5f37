/** What the link in a mail opens: a page that asks, and two things it can do. Looking at it does nothing. */
import type { Reply } from '@middenry/contract';
import type { Context } from '../../context.ts';
import { insertAudit } from '../../db/repositories/audit.ts';
import { mailByReply } from '../../db/repositories/mail.ts';
import { type MessageRow, messageById } from '../../db/repositories/message.ts';
import { messageSetting, putMessageSetting } from '../../db/repositories/message-setting.ts';
import { shiftById } from '../../db/repositories/shift.ts';
import { giveBack, placesHeldOn } from '../../db/repositories/sign-up.ts';
import { write } from '../../db/store.ts';
import { refuse } from '../../refusal.ts';
import { shiftCardOf } from '../messages/list.ts';
import { hashOf } from '../secret.ts';
import { settleWaiting } from '../waiting.ts';

/** The message whose mail holds this token; after a month it opens nothing any more. */
function messageOf(call: Context, token: string): MessageRow {
  const mail = mailByReply(call.store, hashOf(token));
  const message = mail?.messageId == null ? null : messageById(call.store, mail.messageId);
  if (mail === null || message === null || isOld(mail.madeAt, call.now)) throw refuse('code-spent');
  return message;
}

const LIFE_DAYS = 30;
function isOld(madeAt: string, now: Date): boolean {
  const end = new Date(madeAt);
  end.setUTCDate(end.getUTCDate() + LIFE_DAYS);
  return end <= now;
}

export const readReply = (call: Context, token: string): Reply => replyShape(call, messageOf(call, token));

function replyShape(call: Context, { personId, shiftId }: MessageRow): Reply {
  const shift = shiftId === null ? null : shiftCardOf(call, personId, shiftId);
  return {
    shift,
    canGiveBack: shift !== null && shift.mySignUpId !== null && !shift.over,
    mail: messageSetting(call.store, personId).mail === 1,
  };
}

export function sendReply(call: Context, token: string, does: 'give-back' | 'stop-mail'): Reply {
  return write(call.store, () => {
    const message = messageOf(call, token);
    if (does === 'give-back') giveBackBy(call, message);
    else putMessageSetting(call.store, { ...messageSetting(call.store, message.personId), mail: 0 });
    return replyShape(call, message);
  });
}

/** As giving back on the shift's own page: no reason, no mark, and whoever waits is offered the place. */
function giveBackBy(call: Context, { personId, shiftId }: MessageRow): void {
  const { store, now } = call;
  const shift = shiftId === null ? null : shiftById(store, shiftId);
  const place = shift === null ? undefined : placesHeldOn(store, personId, [shift.id])[0];
  if (shift === null || place === undefined) return;
  if (replyIsLate(call, personId, shift.id)) throw refuse('shift-over');
  giveBack(store, place.id, now.toISOString());
  settleWaiting(store, shift.id, now);
  // Nobody is signed in here: the holder of the mail acts for themselves.
  insertAudit(store, { at: now, personId, action: 'shift.gave-back-by-mail', subject: shift.id, detail: {}, requestId: call.requestId });
}

const replyIsLate = (call: Context, personId: string, shiftId: string): boolean => shiftCardOf(call, personId, shiftId)?.over ?? true;
