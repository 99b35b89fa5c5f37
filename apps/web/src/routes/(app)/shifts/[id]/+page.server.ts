import { fail, redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { formatOf } from '$lib/format/from-session.ts';
import { paths } from '$lib/paths/paths.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import { readResults } from '$lib/shift/read-results.ts';
import { readAdults, readShiftForm } from '$lib/shift/read-shift-form.ts';
import type { Actions } from './$types';

const FIELDS: Readonly<Record<string, string>> = { '/localDate': 'date', '/localTime': 'start' };
const fieldOf = (pointer: string) => FIELDS[pointer] ?? pointer.slice(1);
const scopeOf = (value: string) => (value === 'this-and-later' ? ('this-and-later' as const) : undefined);

export const actions: Actions = {
  change: async ({ request, fetch, params }) => {
    const [form, session, shift] = await Promise.all([
      request.formData(),
      need(fetch, 'readSession'),
      need(fetch, 'readShift', { params }),
    ]);
    const read = readShiftForm(form, formatOf(session));
    if (!read.ok) return fail(400, { fault: incomplete(read.faults), typed: typedOf(form) });
    const adults = readAdults(form);
    if (!adults.ok) return fail(400, { fault: incomplete(adults.faults), typed: typedOf(form) });
    const { title, localDate, localTime, minutes, places, note } = read.body;
    const scope = scopeOf(text(form, 'scope'));
    // A day of its own belongs to one shift; a later one keeps its weekday unless this one moves.
    const moved = localDate === shift.localDate ? {} : { localDate };
    const body = { title, localTime, minutes, places, note, ...adults.body, ...moved, ...(scope ? { scope } : {}) };
    const outcome = await act(fetch, 'changeShift', { params, body }, form, fieldOf);
    return outcome.ok ? redirect(303, `${paths.shift(params.id)}?done=changed`) : outcome.refused;
  },
  cancel: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const query = { scope: scopeOf(text(form, 'cancelScope')), anyway: form.has('anyway') ? 'true' : undefined };
    const outcome = await act(fetch, 'cancelShift', { params, query }, form);
    return outcome.ok ? redirect(303, paths.shift(params.id)) : outcome.refused;
  },
  results: async ({ request, fetch, params }) => {
    const [form, shift] = await Promise.all([request.formData(), need(fetch, 'readShift', { params })]);
    const read = readResults(form, shift);
    if (!read.ok) return fail(400, { fault: incomplete(read.faults), typed: typedOf(form) });
    const outcome = await act(fetch, 'sayResults', { params, body: read.body }, form);
    return outcome.ok ? redirect(303, `${paths.shift(params.id)}?done=results`) : outcome.refused;
  },
  group: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const body = { id: text(form, 'id') || uuid7(), classId: text(form, 'classId'), pupils: Number(text(form, 'pupils')) };
    const outcome = await act(fetch, 'addPupilGroup', { params, body }, form);
    return outcome.ok ? redirect(303, `${paths.shift(params.id)}?done=signed`) : outcome.refused;
  },
  checkIn: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const checkedIn = text(form, 'here') === 'yes';
    const group = { id: params.id, groupId: text(form, 'groupId') };
    const outcome = await act(fetch, 'checkInPupils', { params: group, body: { checkedIn } }, form);
    return outcome.ok ? redirect(303, `${paths.shift(params.id)}?done=${checkedIn ? 'in' : 'out'}`) : outcome.refused;
  },
  takeOff: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'takeOffPupilGroup', { params: { id: params.id, groupId: text(form, 'groupId') } }, form);
    return outcome.ok ? redirect(303, `${paths.shift(params.id)}?done=off`) : outcome.refused;
  },
};
