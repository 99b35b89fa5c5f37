import { route } from '../../routing/route.ts';
import { listMessages as list } from '../../services/messages/list.ts';

export const listMessages = route('listMessages', (call) => list(call, call.query));
