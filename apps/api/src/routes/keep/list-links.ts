import { route } from '../../routing/route.ts';
import { boardLinks } from '../../services/links.ts';

export const listLinks = route('listLinks', (call) => ({ items: boardLinks(call) }));
