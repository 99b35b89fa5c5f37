import { route } from '../../routing/route.ts';
import { readAvailability as read } from '../../services/availability.ts';

export const readAvailability = route('readAvailability', (call) => {
  call.own(call.params.id === call.who.personId);
  return read(call, call.params.id);
});
