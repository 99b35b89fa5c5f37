import { route } from '../../routing/route.ts';
import { enterAsPupil as enter } from '../../services/pupil-entry.ts';
import { setSessionCookie } from '../../services/session-cookie.ts';
import { sessionShape } from '../../services/session-shape.ts';

export const enterAsPupil = route('enterAsPupil', (call) => {
  const started = enter(call, call.body);
  setSessionCookie(call.reply, call.config, started.token, started.expiresAt);
  return sessionShape(call, started.who);
});
