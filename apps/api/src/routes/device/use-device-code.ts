import { route } from '../../routing/route.ts';
import { useDeviceCode as use } from '../../services/devices.ts';
import { setSessionCookie, speakAsChosen } from '../../services/session-cookie.ts';
import { sessionShape } from '../../services/session-shape.ts';

export const useDeviceCode = route('useDeviceCode', (call) => {
  const started = use(call, call.body);
  setSessionCookie(call.reply, call.config, started.token, started.expiresAt);
  speakAsChosen(call.request, call.reply, call, started.who.personId);
  return sessionShape(call, started.who);
});
