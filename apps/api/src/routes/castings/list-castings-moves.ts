import { route } from '../../routing/route.ts';
import { listCastingsMoves as list } from '../../services/castings.ts';

export const listCastingsMoves = route('listCastingsMoves', (call) => ({ items: list(call, call.query.siteId) }));
