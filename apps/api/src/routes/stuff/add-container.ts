import { route } from '../../routing/route.ts';
import { addContainer as add } from '../../services/stuff.ts';

export const addContainer = route('addContainer', (call) => {
  call.ownSite(call.body.siteId);
  return add(call, call.body);
});
