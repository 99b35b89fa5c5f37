import { route } from '../../routing/route.ts';
import { takeBringBack as take } from '../../services/bring-back/through-web.ts';
import { setSessionCookie } from '../../services/session-cookie.ts';
import { sessionShape } from '../../services/session-shape.ts';

export const takeBringBack = route('takeBringBack', async (call) => {
  const started = await take(call, call.params.id, call.body);
  setSessionCookie(call.reply, call.config, started.token, started.expiresAt);
  return sessionShape(call, started.who);
});
