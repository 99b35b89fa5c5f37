import { route } from '../../routing/route.ts';
import { giveConsent as give } from '../../services/consent/consents.ts';

export const giveConsent = route('giveConsent', (call) => give(call, call.body));
