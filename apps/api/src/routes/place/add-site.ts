import { route } from '../../routing/route.ts';
import { addSite as add } from '../../services/sites.ts';

export const addSite = route('addSite', (call) => add(call, call.body));
