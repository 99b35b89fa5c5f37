import { route } from '../../routing/route.ts';
import { giveBackPlace as giveBack } from '../../services/sign-ups.ts';

export const giveBackPlace = route('giveBackPlace', (call) => giveBack(call, call.params, call.own));
