import { listInvites as listRows } from '../../db/repositories/invite.ts';
import { route } from '../../routing/route.ts';
import { inviteShape } from '../../services/invites.ts';

export const listInvites = route('listInvites', (call) => ({ items: listRows(call.store).map((row) => inviteShape(row, call.now)) }));
