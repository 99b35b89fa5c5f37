import { route } from '../../routing/route.ts';
import { tellEntry } from '../../services/entries.ts';

export const readEntry = route('readEntry', (call) => tellEntry(call, call.params.id));
