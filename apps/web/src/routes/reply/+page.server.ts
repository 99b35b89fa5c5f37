import { fail } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { type OpenedReply, openReply } from '$lib/handed/reply.ts';
import { secretIn } from '$lib/handed/secret-in.ts';
import { words } from '$lib/messages/index.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  /** For whoever has no scripts: with them the page asks by itself. */
  open: async ({ request, fetch }) => {
    const secret = secretIn(text(await request.formData(), 'link'));
    if (secret === null) return fail(422, { fault: incomplete([{ field: 'link', text: words.handed.notWhole }]), opened: null });
    return { opened: await openReply(fetch, secret) };
  },
  answer: async ({ request, fetch }) => {
    const form = await request.formData();
    const token = text(form, 'token');
    const does = text(form, 'does') === 'stop-mail' ? 'stop-mail' : 'give-back';
    const outcome = await act(fetch, 'sendReply', { body: { token, does } }, form);
    if (outcome.ok) return { opened: { secret: token, reply: outcome.data, fault: null } satisfies OpenedReply };
    const { status, data } = outcome.refused;
    return fail(status, { ...data, opened: await openReply(fetch, token) });
  },
};
