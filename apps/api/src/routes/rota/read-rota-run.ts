import { route } from '../../routing/route.ts';
import { readRotaRun as read } from '../../services/rota-runs.ts';

export const readRotaRun = route('readRotaRun', (call) => read(call, call.params.id));
