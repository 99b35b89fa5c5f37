import { SIGNAL_IDS } from '@middenry/domain';
import { fail, redirect } from '@sveltejs/kit';
import { act, text } from '../errors/act.ts';
import { uuid7 } from '../shared/uuid7.ts';

interface Sent {
  readonly request: Request;
  readonly fetch: typeof globalThis.fetch;
}

async function note({ request, fetch }: Sent, kind: 'seen' | 'aside', after: (form: FormData) => string) {
  const form = await request.formData();
  const signal = SIGNAL_IDS.find((id) => id === text(form, 'signal'));
  if (signal === undefined) return fail(400);
  const said = kind === 'aside' ? { reason: text(form, 'reason'), untilOn: text(form, 'untilOn') } : {};
  const body = { id: text(form, 'id') || uuid7(), signal, kind, ...said };
  const outcome = await act(fetch, 'noteFlag', { params: { id: text(form, 'bin') }, body }, form);
  return outcome.ok ? redirect(303, after(form)) : outcome.refused;
}

/**
 * What can be said to a flag, for each page that shows some: that it was seen, that it is put aside, that it is taken up again.
 *
 * @param after Where to go then, given what was sent
 */
export const flagActions = (after: (form: FormData) => string) => ({
  seen: (sent: Sent) => note(sent, 'seen', after),
  aside: (sent: Sent) => note(sent, 'aside', after),
  back: async ({ request, fetch }: Sent) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'endFlagNote', { params: { id: text(form, 'note') } }, form);
    return outcome.ok ? redirect(303, after(form)) : outcome.refused;
  },
});
