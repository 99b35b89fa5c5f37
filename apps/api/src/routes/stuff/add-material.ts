import { route } from '../../routing/route.ts';
import { addMaterial as add } from '../../services/stuff.ts';

export const addMaterial = route('addMaterial', (call) => add(call, call.body));
