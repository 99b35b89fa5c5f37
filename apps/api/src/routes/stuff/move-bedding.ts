import { route } from '../../routing/route.ts';
import { moveBedding as move } from '../../services/bedding.ts';

export const moveBedding = route('moveBedding', (call) => move(call, call.body));
