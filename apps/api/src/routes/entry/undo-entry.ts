import { route } from '../../routing/route.ts';
import { undo } from '../../services/entries.ts';

export const undoEntry = route('undoEntry', (call) => undo(call, call.params.id, call.own));
