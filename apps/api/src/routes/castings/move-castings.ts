import { route } from '../../routing/route.ts';
import { moveCastings as move } from '../../services/castings.ts';

export const moveCastings = route('moveCastings', (call) => move(call, call.body));
