import { route } from '../../routing/route.ts';
import { addClass as add } from '../../services/classes.ts';

export const addClass = route('addClass', (call) => {
  call.ownSite(call.body.siteId);
  return add(call, call.body);
});
