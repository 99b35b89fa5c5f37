import { route } from '../../routing/route.ts';
import { addBin as add } from '../../services/bins.ts';

export const addBin = route('addBin', (call) => {
  call.ownSite(call.body.siteId);
  return add(call, call.body);
});
