import { route } from '../../routing/route.ts';
import { logBatch as log } from '../../services/entry-batch.ts';

export const logBatch = route('logBatch', (call) => log(call, call.body));
