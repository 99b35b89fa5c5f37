import { route } from '../../routing/route.ts';
import { sayResults as say } from '../../services/shift-results.ts';

export const sayResults = route('sayResults', (call) => say(call, call.params.id, call.body, call.own));
