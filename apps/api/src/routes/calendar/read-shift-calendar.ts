import { route } from '../../routing/route.ts';
import { shiftCalendar } from '../../services/calendar/feed.ts';

export const readShiftCalendar = route('readShiftCalendar', (call) => {
  const text = shiftCalendar(call, call.params.id);
  call.header('content-disposition', 'attachment; filename="shift.ics"');
  return text;
});
