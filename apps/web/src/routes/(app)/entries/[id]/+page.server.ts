import { fail, redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { readCorrection } from '$lib/entry/correct-form.ts';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { formatOf } from '$lib/format/from-session.ts';
import { paths } from '$lib/paths/paths.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  correct: async ({ request, fetch, params }) => {
    const [form, session, entry] = await Promise.all([
      request.formData(),
      need(fetch, 'readSession'),
      need(fetch, 'readEntry', { params }),
    ]);
    const read = readCorrection(entry, form, formatOf(session));
    if (!read.ok) return fail(400, { fault: incomplete(read.faults), typed: typedOf(form) });
    const outcome = await act(fetch, 'correctEntry', { params, body: read.body, ifMatch: Number(text(form, 'revision')) }, form);
    return outcome.ok ? redirect(303, `${paths.entry(params.id)}?done=corrected`) : outcome.refused;
  },
  undo: async ({ request, fetch, params }) => {
    const outcome = await act(fetch, 'undoEntry', { params }, await request.formData());
    return outcome.ok ? redirect(303, `${paths.entry(params.id)}?done=undone`) : outcome.refused;
  },
};
