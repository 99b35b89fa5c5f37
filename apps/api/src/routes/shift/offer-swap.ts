import { route } from '../../routing/route.ts';
import { offerSwap as offer } from '../../services/swaps.ts';

export const offerSwap = route('offerSwap', (call) => offer(call, call.params.id, call.body, call.own));
