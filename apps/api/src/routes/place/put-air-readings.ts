import { route } from '../../routing/route.ts';
import { putAirReadings as put } from '../../services/air.ts';

export const putAirReadings = route('putAirReadings', (call) => {
  call.ownSite(call.params.id);
  return put(call, call.params.id, call.body);
});
