import { type ActionFailure, fail, type RequestEvent, redirect } from '@sveltejs/kit';
import { call, type Outcome } from '$lib/api/call.ts';
import { type FormFault, faultOf } from '$lib/errors/form-fault.ts';
import { paths } from '$lib/paths/paths.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Shift } from '$lib/shift/types.ts';
import type { Actions } from './$types';

type Refused = ActionFailure<{ fault: FormFault; nearest: Shift[] }>;
interface Ask {
  readonly send: typeof fetch;
  readonly text: (name: string) => string;
  readonly all: (name: string) => string[];
  readonly id: string;
}

/** Does one thing to a shift and comes back to the list: with what was done, or with what is in the way. */
function step(done: string, ask: (form: Ask) => Promise<Outcome<unknown>>) {
  return async ({ request, fetch }: RequestEvent): Promise<Refused> => {
    const form = await request.formData();
    const text = (name: string) => String(form.get(name) ?? '');
    const outcome = await ask({ send: fetch, text, all: (name) => form.getAll(name).map(String), id: text('id') || uuid7() });
    if (outcome.ok) redirect(303, `${paths.shifts}?done=${done}`);
    const near = outcome.problem.help?.nearest;
    return fail(outcome.problem.status, { fault: faultOf(outcome.problem), nearest: Array.isArray(near) ? (near as Shift[]) : [] });
  };
}

export const actions: Actions = {
  take: step('taken', ({ send, text, id }) => call(send, 'takePlace', { params: { id: text('shiftId') }, body: { id } })),
  wait: step('waiting', ({ send, text, id }) => call(send, 'joinWaiting', { params: { id: text('shiftId') }, body: { id } })),
  leave: step('left', ({ send, text }) => call(send, 'leaveWaiting', { params: { id: text('shiftId'), waitingId: text('waitingId') } })),
  give: step('given', ({ send, text }) => call(send, 'giveBackPlace', { params: { id: text('shiftId'), signUpId: text('signUpId') } })),
  offer: step('offered', ({ send, text, all, id }) => {
    const toPersonId = text('toPersonId');
    const body = { id, signUpId: text('signUpId'), inReturn: all('inReturn'), ...(toPersonId === '' ? {} : { toPersonId }) };
    return call(send, 'offerSwap', { params: { id: text('shiftId') }, body });
  }),
  accept: step('swapped', ({ send, text, id }) => {
    const giveSignUpId = text('giveSignUpId');
    const body = { id, ...(giveSignUpId === '' ? {} : { giveSignUpId }) };
    return call(send, 'acceptSwap', { params: { id: text('swapId') }, body });
  }),
  yes: step('yes', ({ send, text, id }) => call(send, 'acceptInvitation', { params: { id: text('invitationId') }, body: { id } })),
  no: step('no', ({ send, text }) => call(send, 'endInvitation', { params: { id: text('invitationId') } })),
  endSwap: step('ended', ({ send, text }) => call(send, 'endSwap', { params: { id: text('swapId') } })),
};
