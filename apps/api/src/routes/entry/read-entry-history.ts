import { route } from '../../routing/route.ts';
import { entryHistory } from '../../services/entry-corrections.ts';

export const readEntryHistory = route('readEntryHistory', (call) => ({ items: entryHistory(call, call.params.id) }));
