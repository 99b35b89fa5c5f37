import { route } from '../../routing/route.ts';
import { countUnread, markRead } from '../../services/messages/list.ts';

export const readMessages = route('readMessages', (call) => {
  markRead(call, call.body.ids);
  return { unread: countUnread(call) };
});
