import { route } from '../../routing/route.ts';
import { cancelShift as cancel } from '../../services/shifts.ts';

export const cancelShift = route('cancelShift', (call) => cancel(call, call.params.id, call.ownSite));
