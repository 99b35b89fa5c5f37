import { route } from '../../routing/route.ts';
import { classOfPupil, erasePupil as erase } from '../../services/classes.ts';

export const erasePupil = route('erasePupil', (call) => {
  call.ownSite(classOfPupil(call.store, call.params.id).siteId);
  erase(call, call.params.id);
  return undefined;
});
