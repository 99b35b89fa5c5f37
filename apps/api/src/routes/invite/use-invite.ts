import { route } from '../../routing/route.ts';
import { useInvite as press } from '../../services/invites.ts';
import { setSessionCookie, speakAsChosen } from '../../services/session-cookie.ts';
import { sessionShape } from '../../services/session-shape.ts';

export const useInvite = route('useInvite', async (call) => {
  const started = await press(call, call.body);
  setSessionCookie(call.reply, call.config, started.token, started.expiresAt);
  speakAsChosen(call.request, call.reply, call, started.who.personId);
  return sessionShape(call, started.who);
});
