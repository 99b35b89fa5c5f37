import { route } from '../../routing/route.ts';
import { putShiftNeeds as put } from '../../services/availability.ts';

export const putShiftNeeds = route('putShiftNeeds', (call) => put(call, call.params.id, call.body, call.ownSite));
