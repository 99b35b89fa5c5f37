import { act, text } from '$lib/errors/act.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const does = text(form, 'does') === 'stop-mail' ? 'stop-mail' : 'give-back';
    const outcome = await act(fetch, 'sendReply', { params, body: { does } }, form);
    return outcome.ok ? { done: does } : outcome.refused;
  },
};
