import { route } from '../../routing/route.ts';
import { readerLinks } from '../../services/links.ts';

export const listLinks = route('listLinks', (call) => ({ items: readerLinks(call) }));
