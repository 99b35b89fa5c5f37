import { route } from '../../routing/route.ts';
import { changePassword as change } from '../../services/own-password.ts';

export const changePassword = route('changePassword', async (call) => {
  await change(call, call.body);
  return undefined;
});
