import { fail, redirect } from '@sveltejs/kit';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { words } from '$lib/messages/index.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import type { Actions } from './$types';

const MOST_BYTES = 4 * 1024 * 1024;

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const form = await request.formData();
    const file = form.get('file');
    const refused = (said: string) => fail(400, { fault: incomplete([{ field: 'file', text: said }]), typed: typedOf(form) });
    if (!(file instanceof File) || file.size === 0) return refused(words.sheets.needFile);
    if (file.size > MOST_BYTES) return refused(words.sheets.tooLarge);
    const content = Buffer.from(await file.arrayBuffer()).toString('base64');
    const body = { id: text(form, 'id'), kind: text(form, 'kind') as 'feedings', fileName: file.name.slice(-200) || 'list', content };
    const outcome = await act(fetch, 'addSheetImport', { body }, form);
    return outcome.ok ? redirect(303, farPaths.sheet(outcome.data.id)) : outcome.refused;
  },
};
