import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import type { RouteName } from '@middenry/contract';
import { photoDirOf } from '../../../apps/api/src/photos/shelf.ts';
import { alone, beginSending, takePiece } from '../../../apps/api/src/services/bring-back/desk.ts';
import { type Cast, freshId, PASSWORD } from '../../cast.ts';
import { exportTo } from '../export-zip.ts';
import { changed, type Make } from './sample.ts';

const empty = ({ store }: Cast): void => void store.sqlite.prepare('DELETE FROM programme').run();

/** The stage's own programme, sent back to where it was. */
async function sent(cast: Cast, id: string): Promise<void> {
  const zip = join(cast.dir, 'sent.zip');
  cast.store.sqlite.exec('UPDATE programme SET is_demo = 0');
  await exportTo(zip, { file: cast.store.sqlite.name, photoDir: photoDirOf(cast.app.middenry.config), now: cast.clock.at });
  empty(cast);
  const bytes = readFileSync(zip);
  beginSending(cast.store, id, bytes.length);
  await alone(cast.store, id, (one) => takePiece(cast.store, one, 0, Readable.from([bytes])));
}

export const bringBackSamples = {
  beginBringBack: ({ cast }) => {
    const body = { id: freshId(), code: cast.setupWords, bytes: 1000 };
    return {
      who: null,
      url: '/api/setup/exports',
      body,
      also: changed(body, { 'another code': { code: 'AAAA-AAAA' }, 'three gigabytes': { bytes: 3 * 1024 ** 3 } }),
      ready: () => empty(cast),
    };
  },
  putBringBackPiece: ({ cast }) => {
    const id = freshId();
    return {
      who: null,
      url: `/api/setup/exports/${id}?at=0`,
      params: { id },
      body: Buffer.from('a piece'),
      headers: { 'content-type': 'application/zip' },
      ready: () => {
        empty(cast);
        beginSending(cast.store, id, 7);
      },
    };
  },
  checkBringBack: ({ cast }) => {
    const id = freshId();
    return { who: null, url: `/api/setup/exports/${id}/checked`, params: { id }, body: {}, ready: () => sent(cast, id) };
  },
  takeBringBack: ({ cast }) => {
    const id = freshId();
    const body = { code: cast.setupWords, email: 'ingrid@example.org', password: PASSWORD };
    return {
      who: null,
      url: `/api/setup/exports/${id}/taken`,
      params: { id },
      body,
      also: changed(body, { 'another code': { code: 'AAAA-AAAA' }, 'a stranger': { email: 'nobody@example.org' } }),
      ready: () => sent(cast, id),
    };
  },
} satisfies Partial<Record<RouteName, Make>>;
