import { route } from '../../routing/route.ts';
import { listShifts as list } from '../../services/shifts.ts';

export const listShifts = route('listShifts', (call) => ({ items: list(call, call.query) }));
