import { route } from '../../routing/route.ts';
import { groupText } from '../../services/messages/group-text.ts';

export const readGroupText = route('readGroupText', (call) => ({ text: groupText(call, call.query) }));
