import { route } from '../../routing/route.ts';
import { addIntakePlan } from '../../services/intake-plans.ts';

export const planIntake = route('planIntake', (call) => {
  call.ownSite(call.body.siteId);
  return addIntakePlan(call, call.body);
});
