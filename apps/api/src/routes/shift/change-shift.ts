import { route } from '../../routing/route.ts';
import { changeShift as change } from '../../services/shift-changes.ts';

export const changeShift = route('changeShift', (call) => change(call, call.params.id, call.body, call.ownSite));
