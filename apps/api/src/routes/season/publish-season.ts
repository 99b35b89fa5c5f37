import { route } from '../../routing/route.ts';
import { publishSeason as publish } from '../../services/published-seasons.ts';

export const publishSeason = route('publishSeason', (call) => publish(call, call.body));
