import { route } from '../../routing/route.ts';
import { undoCastingsMove as undo } from '../../services/castings.ts';

export const undoCastingsMove = route('undoCastingsMove', (call) => undo(call, call.params.id, call.own));
