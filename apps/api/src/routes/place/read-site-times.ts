import { route } from '../../routing/route.ts';
import { readSiteTimes as read } from '../../services/site-times.ts';

export const readSiteTimes = route('readSiteTimes', (call) => read(call, call.params.id));
