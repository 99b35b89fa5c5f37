/** Who can be seen in a photo, and what follows from it (criteria C25). */
import type { PhotoOfPeople, PhotoPeople } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import { daysBefore, RETENTION } from '../db/keep/retention.ts';
import { type PhotoRow, photosOfPeople } from '../db/repositories/photo.ts';
import { namedIn, setPeople } from '../db/repositories/photo-people.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { keepErasures } from './erasure/keep-erasures.ts';
import { nameFor } from './names.ts';
import { areOn, refuseUnconsented } from './photo-consents.ts';
import { mayTakeOff, photoOrRefuse, photoShape } from './photos.ts';

const MOST = 200;
const HIDDEN_DAYS = RETENTION.find(({ key }) => key === 'hiddenPhotos')!.days;

export const listPhotosOfPeople = (call: Signed): { on: boolean; items: PhotoOfPeople[] } => ({
  on: areOn(call),
  items: photosOfPeople(call.store, MOST).map((row) => peopleShape(call, row)),
});

/** Whoever may take a photo off may say that somebody is in it; a coordinator says who, or that it is nobody after all. */
export function putPhotoPeople(
  call: Signed & { own(mine: boolean): void },
  id: string,
  { people, personIds }: z.output<typeof PhotoPeople>,
): PhotoOfPeople {
  const said = write(call.store, () => {
    const row = photoOrRefuse(call, id);
    call.own(mayTakeOff(call, row) && row.state === 'shown');
    // What was withdrawn is nobody's to show again.
    if (row.state === 'hidden') throw refuse('not-found');
    if (call.who.role !== 'coordinator' && (people === 'none' || personIds.length > 0)) throw refuse('not-allowed');
    if (people === 'some') refuseUnconsented(call, personIds);
    setPeople(call.store, id, people === 'none' ? null : personIds, call.now.toISOString());
    call.audit('photo.people-said', id, { people, named: personIds.length });
    return peopleShape(call, photoOrRefuse(call, id));
  });
  keepErasures(call);
  return said;
}

function peopleShape(call: Signed, row: PhotoRow): PhotoOfPeople {
  const named = namedIn(call.store, [row.id]).map(({ id, name }) => ({ id, name: nameFor(call.who, { id, name }) }));
  return { ...photoShape(call, row), state: row.state, named, deletedOn: daysAfter(row.hiddenSince, HIDDEN_DAYS) };
}

const daysAfter = (at: string | null, days: number): string | null => (at === null ? null : daysBefore(new Date(at), -days));
