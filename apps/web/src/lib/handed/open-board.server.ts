import { type Actions, fail } from '@sveltejs/kit';
import { text } from '../errors/act.ts';
import { incomplete } from '../errors/form-fault.ts';
import { words } from '../messages/index.ts';
import { openBoard } from './board.ts';
import { secretIn } from './secret-in.ts';

/** A reader's link pasted by whoever has no scripts: with them the page asks by itself. */
export const openLinkActions = {
  open: async ({ request, fetch }) => {
    const secret = secretIn(text(await request.formData(), 'link'));
    if (secret === null) return fail(422, { fault: incomplete([{ field: 'link', text: words.handed.notWhole }]), opened: null });
    return { opened: await openBoard(fetch, secret) };
  },
} satisfies Actions;
