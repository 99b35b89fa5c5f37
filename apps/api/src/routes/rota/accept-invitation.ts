import { route } from '../../routing/route.ts';
import { acceptInvitation as accept } from '../../services/invitations.ts';

export const acceptInvitation = route('acceptInvitation', (call) => accept(call, call.params.id, call.body.id));
