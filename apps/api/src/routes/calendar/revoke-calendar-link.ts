import { route } from '../../routing/route.ts';
import { revokeLink } from '../../services/calendar/links.ts';

export const revokeCalendarLink = route('revokeCalendarLink', (call) => revokeLink(call, call.params.id, call.own));
