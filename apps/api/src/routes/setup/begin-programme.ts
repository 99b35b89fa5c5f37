import { route } from '../../routing/route.ts';
import { beginOwn } from '../../services/begin-own.ts';
import { setSessionCookie } from '../../services/session-cookie.ts';
import { sessionShape } from '../../services/session-shape.ts';

export const beginProgramme = route('beginProgramme', async (call) => {
  const started = await beginOwn(call, call.body);
  setSessionCookie(call.reply, call.config, started.token, started.expiresAt);
  return sessionShape(call, started.who);
});
