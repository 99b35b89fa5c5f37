import { route } from '../../routing/route.ts';
import { logEntry } from '../../services/entries.ts';

export const logNote = route('logNote', (call) => logEntry(call, 'note', call.body));
