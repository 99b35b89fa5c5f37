import { route } from '../../routing/route.ts';
import { devicesOf } from '../../services/devices.ts';
import { personOf } from '../../services/people.ts';

export const listDevices = route('listDevices', (call) => {
  const personId = call.query.personId ?? call.who.personId;
  call.own(personId === call.who.personId);
  return { items: devicesOf(call, personOf(call.store, personId).id) };
});
