import { fail, redirect } from '@sveltejs/kit';
import { call } from '$lib/api/call.ts';
import { faultOf } from '$lib/errors/form-fault.ts';
import { ownPath } from '$lib/paths/paths.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  password: async ({ request, fetch }) => {
    const form = await request.formData();
    const email = String(form.get('email') ?? '');
    const code = String(form.get('code') ?? '').trim();
    const outcome = await call(fetch, 'signIn', {
      body: { email, password: String(form.get('password') ?? ''), ...(code === '' ? {} : { code }) },
    });
    if (!outcome.ok) {
      const secondStep = outcome.problem.code === 'second-step' || (outcome.problem.code === 'code-wrong' && code !== '');
      return fail(outcome.problem.status, { email, secondStep, fault: faultOf(outcome.problem, (pointer) => pointer.slice(1) || null) });
    }
    redirect(303, ownPath(String(form.get('next') ?? '')));
  },
  demo: async ({ request, fetch }) => {
    const form = await request.formData();
    const as = form.get('as') === 'volunteer' ? 'volunteer' : 'coordinator';
    const outcome = await call(fetch, 'enterDemo', { body: { as } });
    if (!outcome.ok) return fail(outcome.problem.status, { email: '', secondStep: false, fault: faultOf(outcome.problem) });
    redirect(303, ownPath(String(form.get('next') ?? '')));
  },
};
