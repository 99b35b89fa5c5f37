import { redirect } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { paths } from '$lib/paths/paths.ts';
import { readAnswers } from '$lib/sheets/read-answers.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  answer: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const body = readAnswers(form, Number(form.get('gramsPerUnit')) || 1000);
    const outcome = await act(fetch, 'answerSheetImport', { params: { id: params.id }, body }, form);
    const back = farPaths.sheet(params.id);
    return outcome.ok ? redirect(303, form.has('add') ? farPaths.newMaterial(text(form, 'add'), back) : back) : outcome.refused;
  },
  take: async ({ request, fetch, params }) => {
    const outcome = await act(fetch, 'takeSheetImport', { params: { id: params.id }, body: {} }, await request.formData());
    return outcome.ok ? redirect(303, farPaths.sheet(params.id)) : outcome.refused;
  },
  drop: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'undoSheetImport', { params: { id: params.id } }, form);
    if (!outcome.ok) return outcome.refused;
    return redirect(303, form.has('taken') ? farPaths.sheet(params.id) : paths.sheets);
  },
};
