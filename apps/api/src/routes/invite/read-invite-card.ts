import { route } from '../../routing/route.ts';
import { inviteCard } from '../../services/invites.ts';

export const readInviteCard = route('readInviteCard', (call) => inviteCard(call, call.body.token));
