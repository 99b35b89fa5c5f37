import type { Readable } from 'node:stream';
import { PHOTO_MOST_BYTES } from '@middenry/contract';
import { TOO_LARGE } from '../../photos/shelf.ts';
import { refuse } from '../../refusal.ts';
import { route } from '../../routing/route.ts';
import { putPhoto as put } from '../../services/photos.ts';

export const putPhoto = route('putPhoto', (call) => {
  const bytes = Number(call.request.headers['content-length'] ?? 0);
  if (bytes > PHOTO_MOST_BYTES) throw refuse('too-large', { detail: TOO_LARGE });
  return put(call, { ...call.query, id: call.params.id }, call.request.body as Readable);
});
