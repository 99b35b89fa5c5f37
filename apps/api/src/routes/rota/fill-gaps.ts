import { route } from '../../routing/route.ts';
import { fillGaps as fill } from '../../services/rota-runs.ts';

export const fillGaps = route('fillGaps', (call) => fill(call, call.body));
