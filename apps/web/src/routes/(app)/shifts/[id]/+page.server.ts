import { fail, redirect } from '@sveltejs/kit';
import { call } from '$lib/api/call.ts';
import { faultOf } from '$lib/errors/form-fault.ts';
import { paths } from '$lib/paths/paths.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  cancel: async ({ fetch, params }) => {
    const outcome = await call(fetch, 'cancelShift', { params });
    return outcome.ok ? redirect(303, paths.shift(params.id)) : fail(outcome.problem.status, { fault: faultOf(outcome.problem) });
  },
  came: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const minutes = Number(form.get('minutes'));
    const attended = form.get('attended') === 'yes';
    const outcome = await call(fetch, 'changeSignUp', {
      params: { id: params.id, signUpId: String(form.get('signUpId') ?? '') },
      body: { attended, minutes: attended && Number.isFinite(minutes) ? Math.round(minutes) : 0 },
    });
    return outcome.ok ? redirect(303, paths.shift(params.id)) : fail(outcome.problem.status, { fault: faultOf(outcome.problem) });
  },
};
