import { route } from '../../routing/route.ts';
import { addSeason as add } from '../../services/named-seasons.ts';

export const addSeason = route('addSeason', (call) => add(call, call.body));
