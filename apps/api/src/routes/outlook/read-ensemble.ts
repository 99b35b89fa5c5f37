import { route } from '../../routing/route.ts';
import { readEnsemble as read } from '../../services/what-if.ts';

export const readEnsemble = route('readEnsemble', (call) => read(call, call.params.id));
