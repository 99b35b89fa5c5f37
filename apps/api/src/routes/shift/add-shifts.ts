import { route } from '../../routing/route.ts';
import { addShifts as add } from '../../services/shifts.ts';

export const addShifts = route('addShifts', (call) => {
  call.ownSite(call.body.siteId);
  return { items: add(call, call.body) };
});
