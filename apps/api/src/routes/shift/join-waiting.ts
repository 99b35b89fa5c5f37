import { route } from '../../routing/route.ts';
import { joinWaiting as join } from '../../services/waiting.ts';

export const joinWaiting = route('joinWaiting', (call) => join(call, call.params.id, call.body));
