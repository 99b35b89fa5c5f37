import { route } from '../../routing/route.ts';
import { signUp } from '../../services/sign-ups.ts';

export const takePlace = route('takePlace', (call) => signUp(call, call.params.id, call.body));
