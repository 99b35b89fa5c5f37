import { route } from '../../routing/route.ts';
import { readBeddingStock as read } from '../../services/bedding.ts';

export const readBeddingStock = route('readBeddingStock', (call) => ({ items: read(call, call.query.siteId) }));
