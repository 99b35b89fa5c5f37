import { route } from '../../routing/route.ts';
import { removeSeason as remove } from '../../services/named-seasons.ts';

export const removeSeason = route('removeSeason', (call) => {
  remove(call, call.params.id);
  return undefined;
});
