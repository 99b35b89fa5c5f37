import { route } from '../../routing/route.ts';
import { readShiftCard as read } from '../../services/shift-card.ts';

export const readShiftCard = route('readShiftCard', (call) => read(call, call.params.id));
