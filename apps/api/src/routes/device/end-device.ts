import { route } from '../../routing/route.ts';
import { endDevice as end, liveDevice } from '../../services/devices.ts';

export const endDevice = route('endDevice', (call) => {
  const device = liveDevice(call, call.params.id);
  call.own(device.personId === call.who.personId);
  end(call, device);
  return undefined;
});
