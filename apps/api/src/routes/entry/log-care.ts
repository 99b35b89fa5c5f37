import { route } from '../../routing/route.ts';
import { logEntry } from '../../services/entries.ts';

export const logCare = route('logCare', (call) => logEntry(call, 'care', call.body));
