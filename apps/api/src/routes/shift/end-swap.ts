import { route } from '../../routing/route.ts';
import { endSwap as end } from '../../services/swaps.ts';

export const endSwap = route('endSwap', (call) => end(call, call.params.id, call.own));
