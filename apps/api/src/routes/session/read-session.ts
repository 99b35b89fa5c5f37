import { route } from '../../routing/route.ts';
import { sessionShape } from '../../services/session-shape.ts';

export const readSession = route('readSession', (call) => sessionShape(call, call.who));
