import { route } from '../../routing/route.ts';
import { renewDemo } from '../../services/demo-age.ts';

export const renewDemonstration = route('renewDemonstration', (call) => {
  renewDemo(call);
  return undefined;
});
