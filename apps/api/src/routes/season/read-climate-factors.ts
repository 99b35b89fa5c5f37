import { route } from '../../routing/route.ts';
import { readClimateFactors as read } from '../../services/climate-factors.ts';

export const readClimateFactors = route('readClimateFactors', (call) => read(call));
