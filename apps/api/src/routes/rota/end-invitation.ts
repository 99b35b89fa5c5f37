import { route } from '../../routing/route.ts';
import { endInvitation as end } from '../../services/invitations.ts';

export const endInvitation = route('endInvitation', (call) => {
  end(call, call.params.id, call.own);
  return undefined;
});
