import { route } from '../../routing/route.ts';
import { checkInPupils as checkIn } from '../../services/pupil-groups.ts';

export const checkInPupils = route('checkInPupils', (call) => checkIn(call, call.params, call.body.checkedIn, call.ownSite));
