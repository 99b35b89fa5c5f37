import { fail, redirect } from '@sveltejs/kit';
import { call, need } from '$lib/api/call.ts';
import { faultOf, incomplete } from '$lib/errors/form-fault.ts';
import { formatOf } from '$lib/format/from-session.ts';
import { paths } from '$lib/paths/paths.ts';
import { readShiftForm } from '$lib/shift/read-shift-form.ts';
import type { Actions } from './$types';

const FIELDS: Readonly<Record<string, string>> = {
  '/localDate': 'date',
  '/localTime': 'start',
  '/title': 'title',
  '/minutes': 'minutes',
  '/places': 'places',
  '/weeks': 'weeks',
};

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const [form, session] = await Promise.all([request.formData(), need(fetch, 'readSession')]);
    const typed = Object.fromEntries([...form].filter(([, value]) => typeof value === 'string')) as Record<string, string>;
    const read = readShiftForm(form, formatOf(session));
    if (!read.ok) return fail(400, { typed, fault: incomplete(read.faults) });
    const outcome = await call(fetch, 'addShifts', { body: read.body });
    if (!outcome.ok) return fail(outcome.problem.status, { typed, fault: faultOf(outcome.problem, (pointer) => FIELDS[pointer] ?? null) });
    redirect(303, paths.shifts);
  },
};
