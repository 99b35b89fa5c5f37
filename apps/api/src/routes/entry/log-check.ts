import { route } from '../../routing/route.ts';
import { logEntry } from '../../services/entries.ts';

export const logCheck = route('logCheck', (call) => logEntry(call, 'check', call.body));
