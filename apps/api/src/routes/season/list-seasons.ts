import { route } from '../../routing/route.ts';
import { listSeasons as list } from '../../services/named-seasons.ts';

export const listSeasons = route('listSeasons', (call) => ({ items: list(call) }));
