import { route } from '../../routing/route.ts';
import { weighContainer as weigh } from '../../services/weighings.ts';

export const weighContainer = route('weighContainer', (call) => weigh(call, call.params.id, call.body));
