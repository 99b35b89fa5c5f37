import { route } from '../../routing/route.ts';
import { readCastingsStock as read } from '../../services/castings.ts';

export const readCastingsStock = route('readCastingsStock', (call) => ({ items: read(call, call.query.siteId) }));
