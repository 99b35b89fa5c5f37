import { route } from '../../routing/route.ts';
import { cancelShift as cancel } from '../../services/shift-changes.ts';

export const cancelShift = route('cancelShift', (call) => cancel(call, call.params.id, call.query, call.ownSite));
