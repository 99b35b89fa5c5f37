import { firstInRole } from '../../db/repositories/person.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import { refuse } from '../../refusal.ts';
import { route } from '../../routing/route.ts';
import { stopSession } from '../../services/session.ts';
import { setSessionCookie } from '../../services/session-cookie.ts';
import { sessionShape } from '../../services/session-shape.ts';
import { enter } from '../../services/sign-in.ts';

export const enterDemo = route('enterDemo', (call) => {
  const programme = findProgramme(call.store);
  if (!call.config.demoEntry || !programme?.isDemo) throw refuse('only-in-demo');
  const person = firstInRole(call.store, call.body.as);
  if (person === undefined) throw refuse('not-found');
  if (call.who !== null) stopSession(call.store, call.who.sessionId, call.now);
  const started = enter(call, person.id, 'demo');
  setSessionCookie(call.reply, call.config, started.token, started.expiresAt);
  return sessionShape(call, started.who);
});
