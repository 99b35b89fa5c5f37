import { route } from '../../routing/route.ts';
import { listBeddingMoves as list } from '../../services/bedding.ts';

export const listBeddingMoves = route('listBeddingMoves', (call) => ({ items: list(call, call.query.siteId) }));
