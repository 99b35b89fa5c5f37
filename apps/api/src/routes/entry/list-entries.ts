import { route } from '../../routing/route.ts';
import { listEntries as list } from '../../services/entries.ts';

export const listEntries = route('listEntries', (call) => list(call, call.params.id, call.query));
