import { fracFromPercent } from '@middenry/domain';
import { redirect } from '@sveltejs/kit';
import type { BodyOf } from '$lib/api/calls.ts';
import { act, text } from '$lib/errors/act.ts';
import { paths } from '$lib/paths/paths.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const form = await request.formData();
    const number = (name: string) => Number(text(form, name).replace(',', '.'));
    const body: BodyOf<'addMaterial'> = {
      id: uuid7(),
      name: text(form, 'name'),
      kind: text(form, 'kind') as BodyOf<'addMaterial'>['kind'],
      moistureFracWb: fracFromPercent(number('moistureFracWb')),
      carbonFracDb: fracFromPercent(number('carbonFracDb')),
      nitrogenFracDb: fracFromPercent(number('nitrogenFracDb')),
      bulkDensityKgM3: number('bulkDensityKgM3'),
      like: text(form, 'like'),
    };
    const outcome = await act(fetch, 'addMaterial', { body }, form);
    return outcome.ok ? redirect(303, `${paths.materials}?added=1`) : outcome.refused;
  },
};
