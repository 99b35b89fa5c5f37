import { redirect } from '@sveltejs/kit';
import type { BodyOf } from '$lib/api/calls.ts';
import { act, text } from '$lib/errors/act.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  add: async ({ request, fetch }) => {
    const form = await request.formData();
    const body = {
      id: text(form, 'id') || uuid7(),
      siteId: text(form, 'siteId'),
      name: text(form, 'name'),
      ageBand: text(form, 'ageBand') as BodyOf<'addClass'>['ageBand'],
    };
    const outcome = await act(fetch, 'addClass', { body }, form);
    return outcome.ok ? redirect(303, `${farPaths.classes}?done=made`) : outcome.refused;
  },
  pupil: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(
      fetch,
      'addPupil',
      { params: { id: text(form, 'classId') }, body: { id: uuid7(), name: text(form, 'pupil') } },
      form,
    );
    return outcome.ok ? { card: outcome.data } : outcome.refused;
  },
  renew: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'renewCard', { params: { id: text(form, 'pupilId') }, body: {} as never }, form);
    return outcome.ok ? { card: outcome.data } : outcome.refused;
  },
  erase: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'erasePupil', { params: { id: text(form, 'pupilId') } }, form);
    return outcome.ok ? redirect(303, `${farPaths.classes}?done=erased`) : outcome.refused;
  },
};
