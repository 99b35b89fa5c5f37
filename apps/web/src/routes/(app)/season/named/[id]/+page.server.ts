import { error, fail, redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { paths } from '$lib/paths/paths.ts';
import { readSeasonForm } from '$lib/season/read-season-form.ts';
import type { Actions } from './$types';

const CHANGED_MEANWHILE = 412;

export const actions: Actions = {
  save: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const { body, faults } = readSeasonForm(form);
    if (faults.length > 0) return fail(400, { fault: incomplete(faults), typed: typedOf(form) });
    const outcome = await act(fetch, 'changeSeason', { params, body, ifMatch: Number(text(form, 'revision')) }, form);
    if (outcome.ok) redirect(303, `${farPaths.keptSeason(params.id)}?done=saved`);
    const { status, data } = outcome.refused;
    return fail(status, { ...data, meanwhile: status === CHANGED_MEANWHILE });
  },
  remove: async ({ request, fetch, params }) => {
    const outcome = await act(fetch, 'removeSeason', { params }, await request.formData());
    return outcome.ok ? redirect(303, `${paths.season}?done=removed`) : outcome.refused;
  },
  publish: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const season = (await need(fetch, 'listSeasons')).items.find((one) => one.id === params.id);
    if (!season) error(404, { message: 'not-found', code: 'not-found' });
    const { name, from, to, siteId, texts } = season;
    const id = text(form, 'id');
    const outcome = await act(fetch, 'publishSeason', { body: { id, name, from, to, siteId, texts } }, form);
    return outcome.ok ? redirect(303, `${farPaths.publishedSeason(id)}?done=made`) : outcome.refused;
  },
};
