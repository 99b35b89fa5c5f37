import { openLinkActions } from '$lib/handed/open-board.server.ts';

export const actions = openLinkActions;
