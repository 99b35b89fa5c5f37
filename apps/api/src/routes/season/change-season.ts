import { route } from '../../routing/route.ts';
import { changeSeason as change } from '../../services/named-seasons.ts';

export const changeSeason = route('changeSeason', (call) => change(call, call.params.id, call.body));
