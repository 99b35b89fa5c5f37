import { route } from '../../routing/route.ts';
import { dropDuties as drop } from '../../services/proposals.ts';

export const dropDuties = route('dropDuties', (call) => {
  call.ownSite(call.body.siteId);
  return drop(call, call.body);
});
