import { route } from '../../routing/route.ts';
import { openPhoto } from '../../services/photos.ts';

/** A photo that was taken off is gone from phones too within this time (criteria C25). */
const KEPT_SECONDS = 60;

export const readPhoto = route('readPhoto', async (call) => {
  const { bytes, etag, people } = await openPhoto(call, call.params.id, call.ownSite);
  // Somebody in it may withdraw their consent between two looks at it.
  call.header('cache-control', people === 'some' ? 'private, no-cache' : `private, max-age=${KEPT_SECONDS}, must-revalidate`);
  call.header('content-disposition', 'inline; filename="photo.jpg"');
  call.header('etag', etag);
  if (call.request.headers['if-none-match'] === etag) call.reply.code(304);
  return call.reply.statusCode === 304 ? Buffer.alloc(0) : bytes;
});
