import { route } from '../../routing/route.ts';
import { takeOffPhoto as takeOff } from '../../services/photos.ts';

export const takeOffPhoto = route('takeOffPhoto', async (call) => {
  await takeOff(call, call.params.id, call.own);
  return undefined;
});
