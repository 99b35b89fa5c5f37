import { route } from '../../routing/route.ts';
import { logFeeding as log } from '../../services/entries.ts';

export const logFeeding = route('logFeeding', (call) => log(call, call.body));
