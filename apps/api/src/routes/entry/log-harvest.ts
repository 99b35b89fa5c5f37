import { route } from '../../routing/route.ts';
import { logEntry } from '../../services/entries.ts';

export const logHarvest = route('logHarvest', (call) => logEntry(call, 'harvest', call.body));
