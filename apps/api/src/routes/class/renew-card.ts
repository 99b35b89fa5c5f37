import { route } from '../../routing/route.ts';
import { classOfPupil, renewCard as renew } from '../../services/classes.ts';

export const renewCard = route('renewCard', (call) => {
  const group = classOfPupil(call.store, call.params.id);
  call.ownSite(group.siteId);
  return renew(call, group, call.params.id);
});
