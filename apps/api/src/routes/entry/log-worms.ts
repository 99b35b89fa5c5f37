import { route } from '../../routing/route.ts';
import { logEntry } from '../../services/entries.ts';

export const logWorms = route('logWorms', (call) => logEntry(call, 'worms', call.body));
