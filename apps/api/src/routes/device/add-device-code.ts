import { route } from '../../routing/route.ts';
import { addDeviceCode as add } from '../../services/devices.ts';

export const addDeviceCode = route('addDeviceCode', (call) => {
  const personId = call.body.personId ?? call.who.personId;
  call.own(personId === call.who.personId);
  return add(call, personId);
});
