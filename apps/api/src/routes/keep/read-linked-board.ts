import { route } from '../../routing/route.ts';
import { readBoard } from '../../services/board.ts';
import { openLink } from '../../services/links.ts';

export const readLinkedBoard = route('readLinkedBoard', (call) => readBoard(call, openLink(call, call.body.token).siteId ?? undefined));
