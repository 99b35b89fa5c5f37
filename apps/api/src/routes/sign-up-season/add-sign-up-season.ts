import { route } from '../../routing/route.ts';
import { addSignUpSeason as add } from '../../services/sign-up-seasons.ts';

export const addSignUpSeason = route('addSignUpSeason', (call) => {
  call.ownSite(call.body.siteId);
  return add(call, call.body);
});
