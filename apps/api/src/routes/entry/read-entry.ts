import { route } from '../../routing/route.ts';
import { readEntry as read } from '../../services/entries.ts';

export const readEntry = route('readEntry', (call) => read(call, call.params.id));
