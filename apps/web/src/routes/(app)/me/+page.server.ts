import { redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import type { BodyOf } from '$lib/api/calls.ts';
import { act, text } from '$lib/errors/act.ts';
import { paths } from '$lib/paths/paths.ts';
import { confirmSecondStep, startSecondStep } from '$lib/people/second-step.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  end: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'endDevice', { params: { id: text(form, 'deviceId') } }, form);
    return outcome.ok ? redirect(303, `${paths.me}?done=ended`) : outcome.refused;
  },
  code: async ({ request, fetch }) => {
    const outcome = await act(fetch, 'addDeviceCode', { body: {} }, await request.formData());
    return outcome.ok ? { code: outcome.data } : outcome.refused;
  },
  password: async ({ request, fetch }) => {
    const form = await request.formData();
    const current = text(form, 'current');
    const outcome = await act(
      fetch,
      'changePassword',
      { body: { ...(current === '' ? {} : { current }), password: text(form, 'password') } },
      form,
    );
    return outcome.ok ? redirect(303, `${paths.me}?done=passwordSaved`) : outcome.refused;
  },
  agree: async ({ request, fetch }) => {
    const form = await request.formData();
    const { person } = await need(fetch, 'readSession');
    const purpose = text(form, 'purpose') as BodyOf<'giveConsent'>['purpose'];
    const body = {
      id: text(form, 'id'),
      personId: person?.id ?? '',
      purpose,
      givenBy: 'self' as const,
      wording: Number(text(form, 'wording')),
    };
    const outcome = await act(fetch, 'giveConsent', { body }, form);
    return outcome.ok ? redirect(303, `${paths.me}?done=given`) : outcome.refused;
  },
  withdraw: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'withdrawConsent', { params: { id: text(form, 'consentId') } }, form);
    return outcome.ok ? redirect(303, `${paths.me}?done=withdrawn`) : outcome.refused;
  },
  totp: startSecondStep,
  confirm: confirmSecondStep,
  endTotp: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'endTotp', { body: { password: text(form, 'password') } }, form);
    return outcome.ok ? redirect(303, `${paths.me}?done=totpEnded`) : outcome.refused;
  },
};
