import { route } from '../../routing/route.ts';
import { allInvites } from '../../services/invites.ts';

export const listInvites = route('listInvites', (call) => ({ items: allInvites(call) }));
