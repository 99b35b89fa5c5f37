import { route } from '../../routing/route.ts';
import { putSiteTimes as put } from '../../services/site-times.ts';

export const putSiteTimes = route('putSiteTimes', (call) => {
  call.ownSite(call.params.id);
  return put(call, call.params.id, call.body);
});
