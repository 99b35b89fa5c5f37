import { listSites as listRows } from '../../db/repositories/site.ts';
import { route } from '../../routing/route.ts';
import { siteShape } from '../../services/sites.ts';

export const listSites = route('listSites', (call) => ({ items: listRows(call.store).map(siteShape) }));
