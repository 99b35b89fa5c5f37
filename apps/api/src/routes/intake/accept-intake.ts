import { route } from '../../routing/route.ts';
import { acceptIntake as accept } from '../../services/intake-plans.ts';

export const acceptIntake = route('acceptIntake', (call) => accept(call, call.params.id, call.body, call.ownSite));
