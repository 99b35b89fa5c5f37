import { fail, type RequestEvent, redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import { readProposals } from '$lib/shift/read-proposals-form.ts';
import type { Actions } from './$types';

const done = (siteId: string, what: string) => redirect(303, `${farPaths.proposals}?site=${siteId}&done=${what}`);

async function leaveOut({ request, fetch }: RequestEvent) {
  const form = await request.formData();
  const siteId = text(form, 'siteId');
  const { items } = await need(fetch, 'listProposals', { query: { siteId } });
  const duties = items.filter(({ key }) => key === text(form, 'key')).flatMap((p) => p.duties.map(({ binId, kind }) => ({ binId, kind })));
  // Gone meanwhile: there is nothing left to leave out.
  if (duties.length === 0) return done(siteId, 'dropped');
  const outcome = await act(fetch, 'dropDuties', { body: { siteId, duties } }, form);
  return outcome.ok ? done(siteId, 'dropped') : outcome.refused;
}

export const actions: Actions = {
  make: async ({ request, fetch }) => {
    const form = await request.formData();
    const siteId = text(form, 'siteId');
    const { items } = await need(fetch, 'listProposals', { query: { siteId } });
    const read = readProposals(form, items);
    if (!read.ok) return fail(400, { fault: incomplete(read.faults), typed: typedOf(form) });
    const body = { id: text(form, 'id') || uuid7(), siteId, shifts: read.shifts };
    const outcome = await act(fetch, 'acceptProposals', { body }, form);
    return outcome.ok ? done(siteId, 'made') : outcome.refused;
  },
  drop: leaveOut,
  back: async ({ request, fetch }) => {
    const form = await request.formData();
    const siteId = text(form, 'siteId');
    const { dropped } = await need(fetch, 'listProposals', { query: { siteId } });
    const duties = dropped.filter((d) => `${d.binId} ${d.kind}` === text(form, 'duty')).map(({ binId, kind }) => ({ binId, kind }));
    if (duties.length === 0) return done(siteId, 'back');
    const outcome = await act(fetch, 'dropDuties', { body: { siteId, duties, back: true } }, form);
    return outcome.ok ? done(siteId, 'back') : outcome.refused;
  },
};
