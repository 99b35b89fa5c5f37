import { route } from '../../routing/route.ts';
import { addInvite as add } from '../../services/invites.ts';

export const addInvite = route('addInvite', (call) => add(call, call.body));
