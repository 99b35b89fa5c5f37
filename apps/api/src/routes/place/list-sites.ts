import { route } from '../../routing/route.ts';
import { listSites as list } from '../../services/sites.ts';

export const listSites = route('listSites', list);
