import { fail, redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import type { BodyOf } from '$lib/api/calls.ts';
import { readMove } from '$lib/castings/read-move.ts';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { formatOf } from '$lib/format/from-session.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import type { Actions } from './$types';

const done = (what: 'saved' | 'undone' | 'erased') => redirect(303, `${farPaths.castings}?done=${what}`);

export const actions: Actions = {
  move: async ({ request, fetch }) => {
    const [form, session] = await Promise.all([request.formData(), need(fetch, 'readSession')]);
    const read = readMove(form, formatOf(session));
    if (!read.ok) return fail(400, { fault: incomplete(read.faults), typed: typedOf(form) });
    const body: BodyOf<'moveCastings'> = read.body;
    const outcome = await act(fetch, 'moveCastings', { body }, form, (pointer) => FIELDS[pointer] ?? null);
    return outcome.ok ? done('saved') : outcome.refused;
  },
  undo: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'undoCastingsMove', { params: { id: text(form, 'moveId') } }, form);
    return outcome.ok ? done('undone') : outcome.refused;
  },
  erase: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'eraseReceiver', { params: { id: text(form, 'moveId') } }, form);
    return outcome.ok ? done('erased') : outcome.refused;
  },
};

const FIELDS: Readonly<Record<string, string>> = { '/massKg': 'mass', '/on': 'day', '/receiver': 'receiver' };
