import { fracFromPercent } from '@middenry/domain';
import { redirect } from '@sveltejs/kit';
import type { BodyOf } from '$lib/api/calls.ts';
import { act, text } from '$lib/errors/act.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { ownPath } from '$lib/paths/paths.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  add: async ({ request, fetch }) => {
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
    const next = ownPath(text(form, 'next') || farPaths.materials);
    return outcome.ok ? redirect(303, next === farPaths.materials ? `${next}?added=1` : next) : outcome.refused;
  },
  fill: async ({ request, fetch }) => {
    const form = await request.formData();
    const given = (field: string, name: string, scale: (n: number) => number) =>
      text(form, name) === '' ? {} : { [field]: scale(Number(text(form, name).replace(',', '.'))) };
    const body = {
      ...given('moistureFracWb', 'fill-moisture', fracFromPercent),
      ...given('carbonFracDb', 'fill-carbon', fracFromPercent),
      ...given('nitrogenFracDb', 'fill-nitrogen', fracFromPercent),
      ...given('bulkDensityKgM3', 'fill-density', (n) => n),
      source: text(form, 'fill-source'),
    };
    const outcome = await act(fetch, 'fillMaterial', { params: { id: text(form, 'materialId') }, body }, form, (pointer) =>
      pointer === '/source' ? 'fill-source' : null,
    );
    return outcome.ok ? redirect(303, `${farPaths.materials}?added=1`) : outcome.refused;
  },
};
