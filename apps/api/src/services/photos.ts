/** Photos of bins: taken in, shown and taken off. Whoever sends one says whether people are in it (criteria C25). */
import { open } from 'node:fs/promises';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import type { Photo, PhotoQuery } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { findApplied } from '../db/repositories/applied.ts';
import { entryById } from '../db/repositories/entry.ts';
import { deletePhoto, insertPhoto, type PhotoRow, photoById, photoBytesOf, photosOfBin } from '../db/repositories/photo.ts';
import { setPeople } from '../db/repositories/photo-people.ts';
import { write } from '../db/store.ts';
import { develop } from '../photos/develop.ts';
import { HEAD_BYTES, kindOf } from '../photos/kind.ts';
import { lay, photoBytes, photoDirOf, receive, takeAway } from '../photos/shelf.ts';
import { refuse, refuseField } from '../refusal.ts';
import { entryBinOrRefuse, leadsSite } from './entries.ts';
import { byServersClock } from './entry-rules.ts';
import { keepErasures } from './erasure/keep-erasures.ts';
import { nameFor } from './names.ts';
import { once } from './once.ts';
import { areOn, refuseUnconsented } from './photo-consents.ts';

type PhotoView = z.output<typeof Photo>;
type Sent = z.output<typeof PhotoQuery> & { readonly id: string };

const QUOTA_BYTES = 200 * 1024 * 1024;

/** Takes a photo in once, however often a phone sends it. Whether it may come is asked before a byte of it is read. */
export async function putPhoto(call: Signed, sent: Sent, body: Readable): Promise<PhotoView> {
  checkPhoto(call, sent);
  const dir = photoDirOf(call.config);
  const received = await receive(dir, body);
  try {
    const signed = { ...sent, sha256: received.sha256 };
    const find = () => photoShape(call, photoOrRefuse(call, sent.id));
    // Sent before: neither the file nor the time for it is needed again.
    if (findApplied(call.store, sent.id) !== undefined) return once(call, 'putPhoto', signed, { make: find, find });
    await refuseUnreadable(received.file);
    return await keep(call, signed, received.file);
  } finally {
    await takeAway(received.file);
  }
}

/** The file comes before its row: a row without its picture would be a promise that nobody can keep. */
async function keep(call: Signed, signed: Sent & { readonly sha256: string }, received: string): Promise<PhotoView> {
  const dir = photoDirOf(call.config);
  const developed = await develop(received);
  const file = await lay(dir, developed.bytes);
  let isKept = false;
  try {
    return once(call, 'putPhoto', signed, {
      make: () => {
        checkPhoto(call, signed);
        const { bytes, width, height } = developed;
        if (photoBytesOf(call.store, call.who.personId) + bytes.length > QUOTA_BYTES) throw refuse('photo-quota');
        insertPhoto(call.store, {
          ...{ id: signed.id, binId: signed.binId, entryId: signed.entryId ?? null, personId: call.who.personId },
          ...{ kind: signed.kind, alt: signed.alt, takenAt: takenAtOf(call, signed), receivedAt: call.now.toISOString() },
          ...{ file, bytes: bytes.length, width, height, sha256: developed.sha256 },
        });
        if (signed.people === 'some') setPeople(call.store, signed.id, signed.personIds ?? [], call.now.toISOString());
        isKept = true;
        return photoShape(call, photoOrRefuse(call, signed.id));
      },
      find: () => photoShape(call, photoOrRefuse(call, signed.id)),
    });
  } finally {
    if (!isKept) await takeAway(join(dir, file));
  }
}

function checkPhoto(call: Signed, sent: Sent): void {
  const { binId, entryId, personId } = sent;
  if (personId !== undefined && personId !== call.who.personId) throw refuse('not-allowed');
  entryBinOrRefuse(call, binId);
  takenAtOf(call, sent);
  checkPeople(call, sent);
  const entry = entryId === undefined ? null : entryById(call.store, entryId);
  if (entry !== null && (entry.binId !== binId || entry.personId !== call.who.personId))
    throw refuseField('query/entryId', 'is not an entry of yours at this bin');
}

/** Who can be seen is said by a coordinator, who sees all consents; from others such a photo waits for one. */
function checkPeople(call: Signed, { people, personIds = [] }: Sent): void {
  if (people === 'none') {
    if (personIds.length > 0) throw refuseField('query/personIds', 'nobody is in it');
    return;
  }
  if (!areOn(call)) throw refuse('photos-of-people-off');
  if (personIds.length > 0 && call.who.role !== 'coordinator') throw refuse('not-allowed');
  refuseUnconsented(call, personIds);
}

/** A phone whose clock is wrong gave both times by it, as with an entry (criteria B24). */
const takenAtOf = ({ now }: Signed, { takenAt, deviceAt }: Sent): string =>
  byServersClock({ happenedAt: takenAt, deviceAt }, now, 'takenAt').at.toISOString();

async function refuseUnreadable(file: string): Promise<void> {
  const source = await open(file);
  try {
    const head = Buffer.alloc(HEAD_BYTES);
    await source.read(head, 0, HEAD_BYTES, 0);
    const kind = kindOf(head);
    if (kind === 'heic') throw refuse('photo-heic');
    if (kind === 'unknown') throw refuse('photo-unreadable');
  } finally {
    await source.close();
  }
}

export function listPhotos(call: Signed, binId: string, limit: number, ownSite: (siteId: string) => void): { items: PhotoView[] } {
  ownSite(entryBinOrRefuse(call, binId).siteId);
  return { items: photosOfBin(call.store, binId, limit).map((row) => photoShape(call, row)) };
}

/** The picture itself, with what tells whether it is still the same. */
export async function openPhoto(
  call: Signed,
  id: string,
  ownSite: (siteId: string) => void,
): Promise<{ readonly bytes: Buffer; readonly etag: string; readonly people: PhotoRow['people'] }> {
  const row = photoOrRefuse(call, id);
  ownSite(row.siteId);
  // Until somebody has said who is in it, only whoever is to say that sees it.
  if (row.state === 'hidden' || (row.state === 'waiting' && call.who.role !== 'coordinator')) throw refuse('not-found');
  try {
    const bytes = await photoBytes(photoDirOf(call.config), row.file);
    return { bytes, etag: `"${row.sha256.slice(0, 32)}"`, people: row.people };
  } catch {
    // Taken off between the two, or its file was lost with a disk.
    throw refuse('not-found');
  }
}

/** Gone for everybody at once; the file follows its row, so that a sudden end leaves a stray file and never a torn photo. */
export async function takeOffPhoto(call: Signed, id: string, own: (mine: boolean) => void): Promise<void> {
  const file = write(call.store, () => {
    const row = photoOrRefuse(call, id);
    own(mayTakeOff(call, row));
    deletePhoto(call.store, id);
    if (row.personId !== call.who.personId) call.audit('photo.taken-off-of-another', id, { binId: row.binId });
    return row.file;
  });
  await takeAway(join(photoDirOf(call.config), file));
  keepErasures(call);
}

export function mayTakeOff({ who }: Signed, row: PhotoRow): boolean {
  if (who.role === 'coordinator' || (who.role === 'site-lead' && leadsSite(who, row.siteId))) return true;
  return row.personId === who.personId;
}

export function photoOrRefuse(call: Context, id: string): PhotoRow {
  const row = photoById(call.store, id);
  if (row === null) throw refuse('not-found');
  return row;
}

export function photoShape(call: Signed, row: PhotoRow): PhotoView {
  const { id, binId, entryId, kind, alt, takenAt, width, height, bytes, people } = row;
  const by = row.personName === null ? null : { id: row.personId, name: nameFor(call.who, { id: row.personId, name: row.personName }) };
  return {
    ...{ id, binId, entryId, kind, alt, takenAt, width, height, bytes, people, by },
    mine: row.personId === call.who.personId,
    mayTakeOff: call.who.role !== 'pupil' && mayTakeOff(call, row),
  };
}
