import { route } from '../../routing/route.ts';
import { endFlagNote as end } from '../../services/flag-notes.ts';

export const endFlagNote = route('endFlagNote', (call) => {
  end(call, call.params.id, call.ownSite);
  return undefined;
});
