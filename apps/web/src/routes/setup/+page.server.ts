import { redirect } from '@sveltejs/kit';
import { act } from '$lib/errors/act.ts';
import { paths } from '$lib/paths/paths.ts';
import { readSetup } from '$lib/people/read-setup.ts';
import type { Actions } from './$types';

const FIELDS: Readonly<Record<string, string>> = {
  '/code': 'code',
  '/programme/name': 'programmeName',
  '/programme/timeZone': 'timeZone',
  '/coordinator/name': 'name',
  '/coordinator/email': 'email',
  '/coordinator/password': 'password',
  '/site/name': 'siteName',
};

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'beginProgramme', { body: readSetup(form, new Date()) }, form, (pointer) => FIELDS[pointer] ?? null);
    return outcome.ok ? redirect(303, paths.board) : outcome.refused;
  },
};
