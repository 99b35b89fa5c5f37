import { route } from '../../routing/route.ts';
import { stopSession } from '../../services/session.ts';
import { setSessionCookie, speakAsChosen } from '../../services/session-cookie.ts';
import { sessionShape } from '../../services/session-shape.ts';
import { enter, personByPassword } from '../../services/sign-in.ts';

export const signIn = route('signIn', async (call) => {
  const person = await personByPassword(call, call.body);
  if (call.who !== null) stopSession(call.store, call.who.sessionId, call.now);
  const started = enter(call, person.id, 'password');
  setSessionCookie(call.reply, call.config, started.token, started.expiresAt);
  speakAsChosen(call.request, call.reply, call, started.who.personId);
  return sessionShape(call, started.who);
});
