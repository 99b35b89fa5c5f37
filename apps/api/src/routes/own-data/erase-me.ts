import { route } from '../../routing/route.ts';
import { eraseMe as erase } from '../../services/erasure/erase.ts';

export const eraseMe = route('eraseMe', async (call) => {
  await erase(call, call.body);
  return undefined;
});
