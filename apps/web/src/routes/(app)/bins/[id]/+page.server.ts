import { DUTY_OF_REMEDY, REMEDY_PARAMETERS } from '@middenry/domain';
import { fail, redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { putOnNextShift } from '$lib/bin/next-shift.ts';
import { deedsOfAll, readSteps } from '$lib/bin/remedy-deeds.ts';
import { act, text, typedOf } from '$lib/errors/act.ts';
import type { FormFault } from '$lib/errors/form-fault.ts';
import { flagActions } from '$lib/flags/flag-actions.ts';
import { words } from '$lib/messages/index.ts';
import { paths } from '$lib/paths/paths.ts';
import type { Actions } from './$types';

const MS_PER_MINUTE = 60_000;

/** A refusal of ours, in the shape of one from the API. */
const refused = (form: FormData, status: number, fault: Pick<FormFault, 'heading' | 'next'>) =>
  fail(status, { fault: { ...fault, faults: [] } satisfies FormFault as FormFault, typed: typedOf(form) });
const notOurs = (form: FormData) => refused(form, 400, { heading: words.errors.invalid.what, next: words.errors.invalid.next });

export const actions: Actions = {
  ...flagActions((form) => paths.bin(text(form, 'bin'))),
  /** Notes the care that a remedy asks for, as done just now. */
  did: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const steps = readSteps(text(form, 'steps'));
    const ids = form.getAll('id').map(String);
    const deeds = steps === null ? [] : deedsOfAll(steps);
    if (deeds.length === 0 || ids.length < deeds.length) return notOurs(form);
    // To the minute, so that a second press is the same note and not another one with its number.
    const happenedAt = new Date(Math.floor(Date.now() / MS_PER_MINUTE) * MS_PER_MINUTE).toISOString();
    for (const [i, deed] of deeds.entries()) {
      const share = deed.action === 'taken-out' ? { share: REMEDY_PARAMETERS.takenOutFrac.value } : {};
      const body = { id: ids[i]!, binId: params.id, happenedAt, note: '', ...deed, ...share };
      const outcome = await act(fetch, 'logCare', { body }, form);
      if (!outcome.ok) return outcome.refused;
    }
    redirect(303, `${paths.bin(params.id)}?did=1`);
  },
  /** Puts what a remedy asks for among the duties of the next shift at the bin's site. */
  plan: async ({ request, fetch, params }) => {
    const [form, session, bin] = await Promise.all([request.formData(), need(fetch, 'readSession'), need(fetch, 'readBin', { params })]);
    const kinds = (readSteps(text(form, 'steps')) ?? []).flatMap(({ id }) => DUTY_OF_REMEDY[id] ?? []);
    if (kinds.length === 0) return notOurs(form);
    const put = await putOnNextShift(fetch, bin, { kinds, today: session.today }, form);
    if (put === null) return refused(form, 409, { heading: words.deeds.noShift });
    if (!put.ok) return put.refused;
    redirect(303, `${paths.bin(bin.id)}?planned=${put.shiftId}`);
  },
};
