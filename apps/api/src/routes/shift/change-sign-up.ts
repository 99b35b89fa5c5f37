import { route } from '../../routing/route.ts';
import { changeSignUp as change } from '../../services/sign-ups.ts';

export const changeSignUp = route('changeSignUp', (call) => change(call, call.params, call.body, call.own));
