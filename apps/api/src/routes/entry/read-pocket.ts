import { route } from '../../routing/route.ts';
import { pocketTag, readPocket as read } from '../../services/pocket.ts';

export const readPocket = route('readPocket', async (call) => {
  const pocket = await read(call);
  const tag = pocketTag(pocket);
  call.header('etag', tag);
  const known = call.request.headers['if-none-match'];
  const isKnown = known?.split(',').some((one) => [tag, `W/${tag}`].includes(one.trim())) ?? false;
  if (isKnown) void call.reply.code(304).send();
  return pocket;
});
