import { route } from '../../routing/route.ts';
import { checkBringBack as check } from '../../services/bring-back/through-web.ts';

export const checkBringBack = route('checkBringBack', (call) => check(call, call.params.id));
