import { route } from '../../routing/route.ts';
import { listIntakePlans as list } from '../../services/intake-plans.ts';

export const listIntakePlans = route('listIntakePlans', (call) => ({ items: list(call, call.query.siteId) }));
