import { route } from '../../routing/route.ts';
import { toldOfShift } from '../../services/mail/status.ts';
import { shiftOrRefuse } from '../../services/shifts.ts';

export const listTold = route('listTold', (call) => {
  call.ownSite(shiftOrRefuse(call, call.params.id).siteId);
  return { items: toldOfShift(call, call.params.id) };
});
