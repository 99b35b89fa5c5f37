import { route } from '../../routing/route.ts';
import { withdrawConsent as withdraw } from '../../services/consent/consents.ts';

export const withdrawConsent = route('withdrawConsent', (call) => {
  withdraw(call, call.params.id);
  return undefined;
});
