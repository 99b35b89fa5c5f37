/** How somebody wants to be told. */
import { randomUUID } from 'node:crypto';
import type { AddressConfirm, AddressNew, MessageSetting, MessageSettingChange } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../../context.ts';
import { countMailSince, insertMail } from '../../db/repositories/mail.ts';
import { type MessageSettingRow, messageSetting, putMessageSetting } from '../../db/repositories/message-setting.ts';
import { write } from '../../db/store.ts';
import { refuse, refuseField } from '../../refusal.ts';
import { hashOf, newSixDigits, sameHash } from '../secret.ts';
import { languageOf } from '../words/languages.ts';

const MINUTE_MS = 60_000;
const CODE_MINUTES = 15;
const CODE_TRIES = 5;
/** Nobody can have somebody else's letter box filled from here. */
const CODES_A_DAY = 5;
const DAY_MINUTES = 1440;

export function readSetting(call: Signed): MessageSetting {
  const row = messageSetting(call.store, call.who.personId);
  return {
    remindDay: row.remindDay === 1,
    remindHours: row.remindHours === 1,
    digest: row.digest === 1,
    quietFrom: row.quietFrom,
    quietTo: row.quietTo,
    mail: row.mail === 1,
    address: row.address,
    confirmed: row.confirmedAt !== null,
    mailPossible: call.config.mail !== undefined,
    language: languageOf(call.store, call.who.personId),
  };
}

function change(call: Signed, to: (row: MessageSettingRow) => Partial<MessageSettingRow>): MessageSetting {
  return write(call.store, () => {
    const row = messageSetting(call.store, call.who.personId);
    putMessageSetting(call.store, { ...row, ...to(row) });
    return readSetting(call);
  });
}

export const changeSetting = (call: Signed, body: z.output<typeof MessageSettingChange>): MessageSetting =>
  change(call, (row) => {
    if (body.mail && row.confirmedAt === null) throw refuseField('/mail', 'needs an address that is confirmed');
    const flag = (value: boolean | undefined, before: number) => (value === undefined ? before : Number(value));
    return {
      remindDay: flag(body.remindDay, row.remindDay),
      remindHours: flag(body.remindHours, row.remindHours),
      digest: flag(body.digest, row.digest),
      mail: flag(body.mail, row.mail),
      quietFrom: body.quietFrom ?? row.quietFrom,
      quietTo: body.quietTo ?? row.quietTo,
      language: body.language ?? row.language,
    };
  });

/** Sends six digits to the address; nothing else is mailed to it before they came back. */
export function putAddress(call: Signed, { address }: z.output<typeof AddressNew>): MessageSetting {
  const { store, now, who } = call;
  if (call.config.mail === undefined) throw refuse('no-mail');
  return change(call, () => {
    const since = new Date(now.getTime() - DAY_MINUTES * MINUTE_MS).toISOString();
    if (countMailSince(store, who.personId, { kind: 'code', since }) >= CODES_A_DAY)
      throw refuse('wait', { retryAfterSeconds: DAY_MINUTES * 60 });
    const code = newSixDigits();
    const at = now.toISOString();
    const until = new Date(now.getTime() + CODE_MINUTES * MINUTE_MS).toISOString();
    const of = { id: randomUUID(), kind: 'code', personId: who.personId, messageId: null } as const;
    insertMail(store, { ...of, address, urgent: 1, madeAt: at, nextTryAt: at, goodUntil: until, secret: code });
    return { address, confirmedAt: null, mail: 0, codeHash: hashOf(who.personId, code), codeUntil: until, codeTries: 0 };
  });
}

export function confirmAddress(call: Signed, { code }: z.output<typeof AddressConfirm>): MessageSetting {
  const at = call.now.toISOString();
  const isRight = write(call.store, () => {
    const row = messageSetting(call.store, call.who.personId);
    if (row.codeHash === null || row.codeUntil === null || row.codeUntil <= at || row.codeTries >= CODE_TRIES) return null;
    const right = sameHash(row.codeHash, hashOf(call.who.personId, code));
    const spent = { codeHash: null, codeUntil: null, codeTries: 0 };
    putMessageSetting(call.store, { ...row, ...(right ? { ...spent, confirmedAt: at, mail: 1 } : { codeTries: row.codeTries + 1 }) });
    return right;
  });
  // Refused outside the transaction, or the count of wrong tries would be taken back with it.
  if (isRight === null) throw refuse('code-spent');
  if (!isRight) throw refuse('code-wrong');
  return readSetting(call);
}

export const dropAddress = (call: Signed): MessageSetting =>
  change(call, () => ({ address: null, confirmedAt: null, mail: 0, codeHash: null, codeUntil: null, codeTries: 0 }));
