import { route } from '../../routing/route.ts';
import { listWordings } from '../../services/consent/consents.ts';

export const listConsentWordings = route('listConsentWordings', listWordings);
