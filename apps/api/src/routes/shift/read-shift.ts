import { route } from '../../routing/route.ts';
import { readShift as read } from '../../services/shifts.ts';

export const readShift = route('readShift', (call) => read(call, call.params.id));
