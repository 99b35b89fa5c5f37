import { route } from '../../routing/route.ts';
import { readBoard as read } from '../../services/board.ts';

export const readBoard = route('readBoard', (call) => read(call, call.query.siteId));
