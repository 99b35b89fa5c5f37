import { route } from '../../routing/route.ts';
import { addPupil as add, classOf } from '../../services/classes.ts';

export const addPupil = route('addPupil', (call) => {
  const group = classOf(call.store, call.params.id);
  call.ownSite(group.siteId);
  return add(call, group, call.body);
});
