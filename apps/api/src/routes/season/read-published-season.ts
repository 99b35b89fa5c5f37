import { route } from '../../routing/route.ts';
import { readPublishedSeason as read } from '../../services/published-seasons.ts';

export const readPublishedSeason = route('readPublishedSeason', (call) => read(call, call.params.id));
