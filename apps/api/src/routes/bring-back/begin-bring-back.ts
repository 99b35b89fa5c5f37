import { route } from '../../routing/route.ts';
import { beginBringBack as begin } from '../../services/bring-back/through-web.ts';

export const beginBringBack = route('beginBringBack', (call) => begin(call, call.body));
