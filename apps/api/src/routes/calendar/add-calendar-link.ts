import { route } from '../../routing/route.ts';
import { addCalendarLink as add } from '../../services/calendar/links.ts';

export const addCalendarLink = route('addCalendarLink', (call) => add(call, call.body));
