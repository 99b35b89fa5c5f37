import { redirect } from '@sveltejs/kit';
import type { BodyOf } from '$lib/api/calls.ts';
import { act, text } from '$lib/errors/act.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import type { Actions } from './$types';

const back = (done: string) => redirect(303, `${farPaths.consents}?done=${done}`);

export const actions: Actions = {
  switch: async ({ request, fetch }) => {
    const form = await request.formData();
    const photosOfPeople = text(form, 'to') === 'on';
    const outcome = await act(fetch, 'changeProgramme', { body: { photosOfPeople } }, form);
    return outcome.ok ? back(photosOfPeople ? 'on' : 'off') : outcome.refused;
  },
  note: async ({ request, fetch }) => {
    const form = await request.formData();
    const body = {
      ...{ id: text(form, 'id'), personId: text(form, 'personId'), wording: Number(text(form, 'wording')) },
      givenBy: text(form, 'givenBy') as BodyOf<'giveConsent'>['givenBy'],
      purpose: text(form, 'purpose') as BodyOf<'giveConsent'>['purpose'],
    };
    const outcome = await act(fetch, 'giveConsent', { body }, form);
    return outcome.ok ? back('given') : outcome.refused;
  },
  withdraw: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'withdrawConsent', { params: { id: text(form, 'consentId') } }, form);
    return outcome.ok ? back('withdrawn') : outcome.refused;
  },
  people: async ({ request, fetch }) => {
    const form = await request.formData();
    const isNobody = text(form, 'say') === 'nobody';
    const personIds = isNobody ? [] : form.getAll('person').map(String);
    const body = { people: isNobody ? ('none' as const) : ('some' as const), personIds };
    const outcome = await act(fetch, 'putPhotoPeople', { params: { id: text(form, 'photoId') }, body }, form);
    return outcome.ok ? back('said') : outcome.refused;
  },
  takeOff: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'takeOffPhoto', { params: { id: text(form, 'photoId') } }, form);
    return outcome.ok ? back('said') : outcome.refused;
  },
};
