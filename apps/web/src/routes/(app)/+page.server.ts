import { SIGNAL_IDS } from '@middenry/domain';
import { fail, redirect } from '@sveltejs/kit';
import { readSelection, selectionQuery } from '$lib/board/selection.ts';
import { act, text } from '$lib/errors/act.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Actions } from './$types';

/** The board as it was looked at. */
const back = (form: FormData) => redirect(303, `/${selectionQuery(readSelection(new URLSearchParams(text(form, 'selection'))))}#list`);

/** A word on a flag, from the board's list. */
async function note(fetch: typeof globalThis.fetch, form: FormData, kind: 'seen' | 'aside') {
  const signal = SIGNAL_IDS.find((id) => id === text(form, 'signal'));
  if (signal === undefined) return fail(400);
  const said = kind === 'aside' ? { reason: text(form, 'reason'), untilOn: text(form, 'untilOn') } : {};
  const body = { id: text(form, 'id') || uuid7(), signal, kind, ...said };
  const outcome = await act(fetch, 'noteFlag', { params: { id: text(form, 'bin') }, body }, form);
  return outcome.ok ? back(form) : outcome.refused;
}

export const actions: Actions = {
  seen: async ({ request, fetch }) => note(fetch, await request.formData(), 'seen'),
  aside: async ({ request, fetch }) => note(fetch, await request.formData(), 'aside'),
  back: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'endFlagNote', { params: { id: text(form, 'note') } }, form);
    return outcome.ok ? back(form) : outcome.refused;
  },
};
