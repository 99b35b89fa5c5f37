import { route } from '../../routing/route.ts';
import { removeClimateFactors as remove } from '../../services/climate-factors.ts';

export const removeClimateFactors = route('removeClimateFactors', (call) => {
  remove(call);
  return undefined;
});
