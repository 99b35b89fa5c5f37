import { route } from '../../routing/route.ts';
import { leaveWaiting as leave } from '../../services/waiting.ts';

export const leaveWaiting = route('leaveWaiting', (call) => leave(call, call.params, call.own));
