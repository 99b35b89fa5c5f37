import { route } from '../../routing/route.ts';
import { fillMaterial as fill } from '../../services/stuff.ts';

export const fillMaterial = route('fillMaterial', (call) => fill(call, call.params.id, call.body));
