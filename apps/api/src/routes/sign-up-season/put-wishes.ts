import { route } from '../../routing/route.ts';
import { putWishes as put } from '../../services/sign-up-seasons.ts';

export const putWishes = route('putWishes', (call) => put(call, call.params.id, call.body));
