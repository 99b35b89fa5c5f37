import { route } from '../../routing/route.ts';
import { readReply as read } from '../../services/mail/reply.ts';

export const readReply = route('readReply', (call) => read(call, call.body.token));
