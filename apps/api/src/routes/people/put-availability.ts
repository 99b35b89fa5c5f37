import { route } from '../../routing/route.ts';
import { putAvailability as put } from '../../services/availability.ts';

export const putAvailability = route('putAvailability', (call) => {
  call.own(call.params.id === call.who.personId);
  return put(call, call.params.id, call.body);
});
