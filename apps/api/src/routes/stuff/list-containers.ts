import { route } from '../../routing/route.ts';
import { listContainers as list } from '../../services/stuff.ts';

export const listContainers = route('listContainers', (call) => ({ items: list(call, call.query.siteId) }));
