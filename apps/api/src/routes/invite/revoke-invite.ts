import { route } from '../../routing/route.ts';
import { takeBackInvite } from '../../services/invites.ts';

export const revokeInvite = route('revokeInvite', (call) => takeBackInvite(call, call.params.id));
