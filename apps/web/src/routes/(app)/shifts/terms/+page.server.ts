import { fail, redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { readTermForm } from '$lib/shift/read-term-form.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  add: async ({ request, fetch }) => {
    const [form, sites, session] = await Promise.all([request.formData(), need(fetch, 'listSites'), need(fetch, 'readSession')]);
    const zone = sites.items.find((s) => s.id === text(form, 'siteId'))?.timeZone ?? session.programme?.timeZone ?? 'UTC';
    const read = readTermForm(form, zone);
    if (!read.ok) return fail(400, { fault: incomplete(read.faults), typed: typedOf(form) });
    const outcome = await act(fetch, 'addSignUpSeason', { body: read.body }, form);
    return outcome.ok ? redirect(303, `${farPaths.terms}?done=made`) : outcome.refused;
  },
  draw: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'drawPlaces', { params: { id: text(form, 'termId') }, body: {} }, form);
    return outcome.ok ? redirect(303, `${farPaths.terms}?done=drawn`) : outcome.refused;
  },
};
