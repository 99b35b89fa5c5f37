import { fail, redirect } from '@sveltejs/kit';
import { call } from '$lib/api/call.ts';
import { faultOf } from '$lib/errors/form-fault.ts';
import { paths } from '$lib/paths/paths.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Shift } from '$lib/shift/types.ts';
import type { Actions } from './$types';

const text = (form: FormData, name: string) => String(form.get(name) ?? '');

export const actions: Actions = {
  take: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await call(fetch, 'takePlace', { params: { id: text(form, 'shiftId') }, body: { id: text(form, 'id') || uuid7() } });
    if (!outcome.ok) {
      const help = outcome.problem.help?.nearest;
      return fail(outcome.problem.status, { fault: faultOf(outcome.problem), nearest: Array.isArray(help) ? (help as Shift[]) : [] });
    }
    redirect(303, `${paths.shifts}?done=taken`);
  },
  wait: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await call(fetch, 'joinWaiting', { params: { id: text(form, 'shiftId') }, body: { id: text(form, 'id') || uuid7() } });
    if (!outcome.ok) return fail(outcome.problem.status, { fault: faultOf(outcome.problem), nearest: [] as Shift[] });
    redirect(303, `${paths.shifts}?done=waiting`);
  },
  leave: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await call(fetch, 'leaveWaiting', { params: { id: text(form, 'shiftId'), waitingId: text(form, 'waitingId') } });
    if (!outcome.ok) return fail(outcome.problem.status, { fault: faultOf(outcome.problem), nearest: [] as Shift[] });
    redirect(303, `${paths.shifts}?done=left`);
  },
  give: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await call(fetch, 'giveBackPlace', { params: { id: text(form, 'shiftId'), signUpId: text(form, 'signUpId') } });
    if (!outcome.ok) return fail(outcome.problem.status, { fault: faultOf(outcome.problem), nearest: [] as Shift[] });
    redirect(303, `${paths.shifts}?done=given`);
  },
};
