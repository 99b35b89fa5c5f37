import { route } from '../../routing/route.ts';
import { listCalendarLinks as list } from '../../services/calendar/links.ts';

export const listCalendarLinks = route('listCalendarLinks', (call) => ({ items: list(call) }));
