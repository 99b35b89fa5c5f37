/** Consents to photos: given, looked up and withdrawn (criteria C25). */
import type { Consent, ConsentNew, ConsentWording } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Signed } from '../../context.ts';
import {
  type ConsentRow,
  consentById,
  consentsOf,
  hasConsent,
  insertConsent,
  listConsentRows,
  withdrawConsentRow,
} from '../../db/repositories/consent.ts';
import { write } from '../../db/store.ts';
import { refuse, refuseField } from '../../refusal.ts';
import { keepErasures } from '../erasure/keep-erasures.ts';
import { nameFor } from '../names.ts';
import { once } from '../once.ts';
import { personOf } from '../people.ts';
import { WORDINGS } from './wordings.data.ts';

type AskedOwn = Signed & { own(mine: boolean): void };
const NEWEST = WORDINGS.at(-1)!.version;

export const listConsents = (call: Signed): { items: Consent[] } => ({
  items: listConsentRows(call.store).map((row) => shapeOf(call, row)),
});

export const listConsentsOf = (call: Signed, personId: string): { items: Consent[] } => {
  personOf(call.store, personId);
  return { items: consentsOf(call.store, personId).map((row) => shapeOf(call, row)) };
};

/** In the reader's language, the newest first. */
export const listWordings = ({ language }: Context): { items: ConsentWording[] } => ({
  items: [...WORDINGS].reverse().map(({ version, publishedOn, texts }) => ({ version, publishedOn, ...texts[language] })),
});

export function giveConsent(call: AskedOwn, body: z.output<typeof ConsentNew>): Consent {
  call.own(body.personId === call.who.personId);
  const find = () => shapeOf(call, consentOrRefuse(call, body.id));
  const make = () => {
    checkGiver(call, body);
    if (body.wording !== NEWEST) throw refuseField('/wording', `is not the newest: read number ${NEWEST} first`);
    if (hasConsent(call.store, body.personId, body.purpose)) throw refuseField('/purpose', 'is consented to already');
    insertConsent(call.store, { ...body, givenAt: call.now.toISOString(), enteredBy: call.who.personId });
    const { purpose, givenBy, wording } = body;
    call.audit('consent.given', body.personId, { purpose, givenBy, wording });
    return find();
  };
  return once(call, 'giveConsent', body, { make, find });
}

/** Adults speak for themselves alone; for a pupil speaks a guardian or the school, through a coordinator. */
function checkGiver(call: Signed, { personId, givenBy }: z.output<typeof ConsentNew>): void {
  const isPupil = personOf(call.store, personId).role === 'pupil';
  if (isPupil && givenBy === 'self') throw refuseField('/givenBy', 'a pupil does not consent alone: it is the guardian or the school');
  if (isPupil) return;
  if (givenBy !== 'self') throw refuseField('/givenBy', 'an adult consents for themselves');
  if (personId !== call.who.personId)
    throw refuse('not-allowed', { detail: 'An adult consents for themselves, on the page of their own devices and data.' });
}

export function withdrawConsent(call: AskedOwn, id: string): void {
  write(call.store, () => {
    const row = consentOrRefuse(call, id);
    call.own(row.personId === call.who.personId);
    if (row.withdrawnAt !== null) return;
    withdrawConsentRow(call.store, id, call.now.toISOString(), call.who.personId);
    call.audit('consent.withdrawn', row.personId, { purpose: row.purpose });
  });
  keepErasures(call);
}

function consentOrRefuse({ store }: Context, id: string): ConsentRow {
  const row = consentById(store, id);
  if (row === null) throw refuse('not-found');
  return row;
}

function shapeOf(call: Signed, row: ConsentRow): Consent {
  const { id, purpose, givenBy, wording, givenAt, withdrawnAt } = row;
  const ref = (personId: string, name: string | null) =>
    name === null ? null : { id: personId, name: nameFor(call.who, { id: personId, name }) };
  return {
    ...{ id, purpose, givenBy, wording, givenAt, withdrawnAt },
    person: ref(row.personId, row.personName),
    enteredBy: ref(row.enteredBy, row.enteredByName),
  };
}
