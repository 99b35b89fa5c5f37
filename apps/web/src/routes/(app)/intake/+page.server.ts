import { fail, redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { formatOf } from '$lib/format/from-session.ts';
import { readIntakeForm } from '$lib/intake/read-intake-form.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  plan: async ({ request, fetch }) => {
    const form = await request.formData();
    const read = readIntakeForm(form, formatOf(await need(fetch, 'readSession')).massUnit);
    if (!read.ok) return fail(400, { fault: incomplete(read.faults), typed: typedOf(form) });
    const outcome = await act(fetch, 'planIntake', { body: read.body }, form);
    return outcome.ok ? redirect(303, `${farPaths.intake}#plan`) : outcome.refused;
  },
  accept: async ({ request, fetch }) => {
    const form = await request.formData();
    const body = { id: text(form, 'id') || uuid7(), shiftId: text(form, 'shiftId') };
    const outcome = await act(fetch, 'acceptIntake', { params: { id: text(form, 'planId') }, body }, form);
    return outcome.ok ? redirect(303, `${farPaths.intake}?accepted=1#plan`) : outcome.refused;
  },
};
