import { route } from '../../routing/route.ts';
import { changeSite as change } from '../../services/sites.ts';

export const changeSite = route('changeSite', (call) => {
  call.ownSite(call.params.id);
  return change(call, call.params.id, call.body);
});
