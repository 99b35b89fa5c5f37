import { redirect } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Actions } from './$types';

const SAVED = `${farPaths.reminders}?done=saved`;
const ticked = (form: FormData, name: string): boolean => form.getAll('on').includes(name);
const shown = (form: FormData, name: string): boolean => text(form, 'shown').split(' ').includes(name);

export const actions: Actions = {
  save: async ({ request, fetch }) => {
    const form = await request.formData();
    const body = {
      remindDay: ticked(form, 'remindDay'),
      remindHours: ticked(form, 'remindHours'),
      ...(shown(form, 'digest') ? { digest: ticked(form, 'digest') } : {}),
      ...(shown(form, 'mail') ? { mail: ticked(form, 'mail') } : {}),
      quietFrom: text(form, 'quietFrom'),
      quietTo: text(form, 'quietTo'),
    };
    const outcome = await act(fetch, 'changeMessageSetting', { body }, form);
    return outcome.ok ? redirect(303, SAVED) : outcome.refused;
  },
  address: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'putMailAddress', { body: { address: text(form, 'address') } }, form);
    return outcome.ok ? redirect(303, farPaths.reminders) : outcome.refused;
  },
  confirm: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'confirmMailAddress', { body: { code: text(form, 'code') } }, form);
    return outcome.ok ? redirect(303, SAVED) : outcome.refused;
  },
  forget: async ({ request, fetch }) => {
    const outcome = await act(fetch, 'dropMailAddress', {}, await request.formData());
    return outcome.ok ? redirect(303, SAVED) : outcome.refused;
  },
  link: async ({ request, fetch, url }) => {
    const form = await request.formData();
    const body = { id: text(form, 'id') || uuid7(), label: text(form, 'label') };
    const outcome = await act(fetch, 'addCalendarLink', { body }, form);
    return outcome.ok ? { made: url.origin + outcome.data.path } : outcome.refused;
  },
  revoke: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'revokeCalendarLink', { params: { id: text(form, 'linkId') } }, form);
    return outcome.ok ? redirect(303, SAVED) : outcome.refused;
  },
};
