import { route } from '../../routing/route.ts';
import { noteFlag as note } from '../../services/flag-notes.ts';

export const noteFlag = route('noteFlag', (call) => note(call, call.params.id, call.body, call.ownSite));
