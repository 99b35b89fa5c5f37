import { route } from '../../routing/route.ts';
import { listBins as list } from '../../services/bins.ts';

export const listBins = route('listBins', (call) => list(call, call.query.siteId));
