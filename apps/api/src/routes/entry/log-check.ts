import { route } from '../../routing/route.ts';
import { logCheck as log } from '../../services/entries.ts';

export const logCheck = route('logCheck', (call) => log(call, call.body));
