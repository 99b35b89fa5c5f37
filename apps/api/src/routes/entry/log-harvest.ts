import { route } from '../../routing/route.ts';
import { logHarvest as log } from '../../services/entries.ts';

export const logHarvest = route('logHarvest', (call) => log(call, call.body));
