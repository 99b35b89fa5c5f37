import { fail, redirect } from '@sveltejs/kit';
import type { BodyOf } from '$lib/api/calls.ts';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { words } from '$lib/messages/index.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { readClimate } from '$lib/people/read-climate.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Actions } from './$types';

const number = (form: FormData, name: string) => Number(text(form, name).replace(',', '.'));
const saved = (id: string, part: string) => redirect(303, `${farPaths.site(id)}?saved=1#${part}`);

export const actions: Actions = {
  site: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'changeSite', { params, body: { name: text(form, 'name'), note: text(form, 'note') } }, form);
    return outcome.ok ? saved(params.id, 'site') : outcome.refused;
  },
  climate: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const climate = readClimate(form);
    if (climate === null) return fail(400, { fault: incomplete([{ field: 'min-0', text: words.sites.climateAll }]), typed: typedOf(form) });
    const outcome = await act(fetch, 'changeSite', { params, body: climate }, form);
    return outcome.ok ? saved(params.id, 'climate') : outcome.refused;
  },
  readings: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'putAirReadings', { params, body: { csv: text(form, 'csv') } }, form, () => 'csv');
    return outcome.ok ? saved(params.id, 'readings') : outcome.refused;
  },
  container: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const full = text(form, 'fullKg') === '' ? {} : { fullKg: number(form, 'fullKg') };
    const outcome = await act(
      fetch,
      'addContainer',
      {
        body: {
          id: uuid7(),
          siteId: params.id,
          name: text(form, 'containerName'),
          litres: number(form, 'litres'),
          tareKg: number(form, 'tareKg') || 0,
          ...full,
        },
      },
      form,
      (pointer) => (pointer === '/name' ? 'containerName' : pointer.slice(1)),
    );
    return outcome.ok ? saved(params.id, 'containers') : outcome.refused;
  },
  weigh: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const outcome = await act(
      fetch,
      'weighContainer',
      { params: { id: text(form, 'containerId') }, body: { id: uuid7(), massKg: number(form, 'massKg') } },
      form,
      () => `weigh-${text(form, 'containerId')}`,
    );
    return outcome.ok ? saved(params.id, 'containers') : outcome.refused;
  },
  retire: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'changeContainer', { params: { id: text(form, 'containerId') }, body: { archived: true } }, form);
    return outcome.ok ? saved(params.id, 'containers') : outcome.refused;
  },
  bedding: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const body = {
      id: uuid7(),
      siteId: params.id,
      materialId: text(form, 'materialId'),
      kind: text(form, 'kind') as BodyOf<'moveBedding'>['kind'],
      massKg: number(form, 'beddingKg'),
    };
    const outcome = await act(fetch, 'moveBedding', { body }, form, (pointer) => (pointer === '/massKg' ? 'beddingKg' : pointer.slice(1)));
    return outcome.ok ? saved(params.id, 'bedding') : outcome.refused;
  },
};
