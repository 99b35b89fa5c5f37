import { route } from '../../routing/route.ts';
import { sendTest } from '../../services/mail/status.ts';

export const testMail = route('testMail', (call) => sendTest(call));
