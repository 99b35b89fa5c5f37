import { route } from '../../routing/route.ts';
import { stopSession } from '../../services/session.ts';
import { clearSessionCookie } from '../../services/session-cookie.ts';

export const signOut = route('signOut', (call) => {
  stopSession(call.store, call.who.sessionId, call.now);
  clearSessionCookie(call.reply, call.config);
  return undefined;
});
