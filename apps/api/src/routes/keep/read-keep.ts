import { route } from '../../routing/route.ts';
import { keepShape } from '../../services/keep-shape.ts';

export const readKeep = route('readKeep', (call) => keepShape(call));
