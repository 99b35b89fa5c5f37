import { route } from '../../routing/route.ts';
import { listInvitations as list } from '../../services/invitations.ts';

export const listInvitations = route('listInvitations', (call) => ({ items: list(call) }));
