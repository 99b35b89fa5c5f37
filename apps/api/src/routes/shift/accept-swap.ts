import { route } from '../../routing/route.ts';
import { acceptSwap as accept } from '../../services/swaps.ts';

export const acceptSwap = route('acceptSwap', (call) => accept(call, call.params.id, call.body));
