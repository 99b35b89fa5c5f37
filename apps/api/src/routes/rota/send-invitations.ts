import { route } from '../../routing/route.ts';
import { sendInvitations as send } from '../../services/rota-runs.ts';

export const sendInvitations = route('sendInvitations', (call) => send(call, call.params.id, call.body));
