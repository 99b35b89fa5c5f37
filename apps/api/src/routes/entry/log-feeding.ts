import { route } from '../../routing/route.ts';
import { logEntry } from '../../services/entries.ts';

export const logFeeding = route('logFeeding', (call) => logEntry(call, 'feeding', call.body));
