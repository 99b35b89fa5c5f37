import { route } from '../../routing/route.ts';
import { endTotp as end } from '../../services/second-step.ts';

export const endTotp = route('endTotp', async (call) => {
  await end(call, call.body.password);
  return undefined;
});
