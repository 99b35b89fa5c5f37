import { listBins as listRows } from '../../db/repositories/bin.ts';
import { route } from '../../routing/route.ts';
import { binShape } from '../../services/bins.ts';

export const listBins = route('listBins', (call) => ({ items: listRows(call.store, { siteId: call.query.siteId }).map(binShape) }));
