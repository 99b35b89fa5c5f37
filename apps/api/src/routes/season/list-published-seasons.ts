import { route } from '../../routing/route.ts';
import { listPublishedSeasons as list } from '../../services/published-seasons.ts';

export const listPublishedSeasons = route('listPublishedSeasons', (call) => ({ items: list(call) }));
