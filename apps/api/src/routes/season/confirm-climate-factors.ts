import { route } from '../../routing/route.ts';
import { confirmClimateFactors as confirm } from '../../services/climate-factors.ts';

export const confirmClimateFactors = route('confirmClimateFactors', (call) => confirm(call, call.body));
