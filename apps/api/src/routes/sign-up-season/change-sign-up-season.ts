import { route } from '../../routing/route.ts';
import { changeSignUpSeason as change } from '../../services/sign-up-seasons.ts';

export const changeSignUpSeason = route('changeSignUpSeason', (call) => change(call, call.params.id, call.body, call.ownSite));
