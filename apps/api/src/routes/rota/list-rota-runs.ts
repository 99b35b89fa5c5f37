import { route } from '../../routing/route.ts';
import { listRotaRuns as list } from '../../services/rota-runs.ts';

export const listRotaRuns = route('listRotaRuns', (call) => ({ items: list(call) }));
