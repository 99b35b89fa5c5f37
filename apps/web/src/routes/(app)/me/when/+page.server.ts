import { fail, redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { act, type Typed, text, typedOf } from '$lib/errors/act.ts';
import { type FormFault, incomplete } from '$lib/errors/form-fault.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { readWhen, type Ticked, tickedIn } from '$lib/rota/read-when.ts';
import type { Actions } from './$types';

interface Refused {
  readonly fault: FormFault;
  readonly typed: Typed;
  readonly ticked: Ticked;
}

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const form = await request.formData();
    const refuse = (status: number, fault: FormFault) => fail<Refused>(status, { fault, typed: typedOf(form), ticked: tickedIn(form) });
    const read = readWhen(form);
    if (!read.ok) return refuse(400, incomplete(read.faults));
    const me = (await need(fetch, 'readSession')).person?.id ?? '';
    const id = text(form, 'personId') || me;
    const outcome = await act(fetch, 'putAvailability', { params: { id }, body: read.body }, form);
    if (!outcome.ok) return refuse(outcome.refused.status, outcome.refused.data.fault);
    redirect(303, `${farPaths.when(id === me ? undefined : id)}${id === me ? '?' : '&'}saved=1`);
  },
};
