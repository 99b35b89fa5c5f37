import { route } from '../../routing/route.ts';
import { setSessionCookie } from '../../services/session-cookie.ts';
import { sessionShape } from '../../services/session-shape.ts';
import { enterDemo as enter } from '../../services/sign-in.ts';

export const enterDemo = route('enterDemo', (call) => {
  const started = enter(call, call.body.as);
  setSessionCookie(call.reply, call.config, started.token, started.expiresAt);
  return sessionShape(call, started.who);
});
