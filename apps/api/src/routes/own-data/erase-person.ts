import { route } from '../../routing/route.ts';
import { eraseOther } from '../../services/erasure/erase.ts';

export const erasePerson = route('erasePerson', (call) => {
  eraseOther(call, call.params.id);
  return undefined;
});
