import { route } from '../../routing/route.ts';
import { changeContainer as change } from '../../services/stuff.ts';

export const changeContainer = route('changeContainer', (call) => change(call, call.params.id, call.body, call.ownSite));
