import { route } from '../../routing/route.ts';
import { binOf, changeBin as change } from '../../services/bins.ts';

export const changeBin = route('changeBin', (call) => {
  call.ownSite(binOf(call.store, call.params.id).siteId);
  if (call.body.siteId !== undefined) call.ownSite(call.body.siteId);
  return change(call, call.params.id, call.body);
});
