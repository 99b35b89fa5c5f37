import { route } from '../../routing/route.ts';
import { sendReply as send } from '../../services/mail/reply.ts';

export const sendReply = route('sendReply', (call) => send(call, call.body.token, call.body.does));
