import { route } from '../../routing/route.ts';
import { readMailStatus } from '../../services/mail/status.ts';

export const readMail = route('readMail', (call) => readMailStatus(call));
