import type { Readable } from 'node:stream';
import { route } from '../../routing/route.ts';
import { putPiece } from '../../services/bring-back/through-web.ts';

export const putBringBackPiece = route('putBringBackPiece', (call) =>
  putPiece(call, call.params.id, call.query.at, call.request.body as Readable),
);
