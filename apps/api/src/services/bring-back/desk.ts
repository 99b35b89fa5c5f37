/** Where the pieces of an export are put together, outside the store, until it is taken or given up. */
import { closeSync, openSync, rmSync, statfsSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { dirname } from 'node:path';
import type { Readable } from 'node:stream';
import { PIECE_MOST_BYTES } from '@middenry/contract';
import type { Store } from '../../db/store.ts';
import { refuse } from '../../refusal.ts';

/** The zip, its rows in a new store and its photos lie side by side for a while. */
const ROOM_TIMES = 4;

interface Sent {
  readonly id: string;
  readonly bytes: number;
  received: number;
  /** A piece is being written, or the whole is being read. */
  isBusy: boolean;
}

const sentTo = new WeakMap<Store, Sent>();

export const zipFileOf = (store: Store): string => `${store.sqlite.name}.returning.zip`;

export const sentOf = ({ id, bytes, received }: Sent) => ({ id, bytes, received });

/** @throws {Refusal} still-running, or no-room */
export function beginSending(store: Store, id: string, bytes: number): Sent {
  if (sentTo.get(store)?.isBusy) throw refuse('still-running');
  const file = zipFileOf(store);
  rmSync(file, { force: true });
  const { bavail, bsize } = statfsSync(dirname(file));
  if (bavail * bsize < bytes * ROOM_TIMES) throw refuse('no-room');
  closeSync(openSync(file, 'wx', 0o600));
  const sent = { id, bytes, received: 0, isBusy: false };
  sentTo.set(store, sent);
  return sent;
}

export function endSending(store: Store): void {
  sentTo.delete(store);
  rmSync(zipFileOf(store), { force: true });
}

/**
 * One at a time, whoever asks.
 *
 * @throws {Refusal} not-found, or still-running
 */
export async function alone<T>(store: Store, id: string, work: (sent: Sent) => Promise<T>): Promise<T> {
  const sent = sentTo.get(store);
  if (sent === undefined || sent.id !== id) throw refuse('not-found');
  if (sent.isBusy) throw refuse('still-running');
  sent.isBusy = true;
  try {
    return await work(sent);
  } finally {
    sent.isBusy = false;
  }
}

/**
 * Writes the next piece. One that is not the next is left unread: whoever sends it learns from the answer where to go on.
 *
 * @throws {Refusal} too-large, or bad-request when it ends too soon; the zip is then as long as before
 */
export async function takePiece(store: Store, sent: Sent, at: number, body: Readable): Promise<void> {
  if (at !== sent.received) {
    body.resume();
    return;
  }
  const most = Math.min(PIECE_MOST_BYTES, sent.bytes - sent.received);
  const target = await open(zipFileOf(store), 'r+');
  let written = 0;
  try {
    for await (const piece of body as AsyncIterable<Buffer>) {
      if (written + piece.length > most)
        throw refuse('too-large', { detail: 'A piece is at most 16 MB, and all of them as long as was said.' });
      await target.write(piece, 0, piece.length, at + written);
      written += piece.length;
    }
    sent.received += written;
  } catch (error) {
    await target.truncate(sent.received);
    throw isCut(error) ? refuse('bad-request', { detail: 'The piece ended before it was whole.' }) : error;
  } finally {
    await target.close();
  }
}

const isCut = (error: unknown): boolean =>
  ['ECONNRESET', 'ERR_STREAM_PREMATURE_CLOSE', 'ABORT_ERR'].includes(String((error as { code?: unknown }).code));
