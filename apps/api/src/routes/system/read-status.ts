import { route } from '../../routing/route.ts';
import { statusShape } from '../../services/status.ts';

export const readStatus = route('readStatus', (call) => statusShape(call));
