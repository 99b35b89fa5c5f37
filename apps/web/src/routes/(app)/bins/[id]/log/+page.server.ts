import { fail, type RequestEvent, redirect } from '@sveltejs/kit';
import { call, need } from '$lib/api/call.ts';
import { faultOf, incomplete } from '$lib/errors/form-fault.ts';
import { formatOf } from '$lib/format/from-session.ts';
import { CALL_OF, type EntryKind } from '$lib/log/entry-kinds.ts';
import { readEntryForm } from '$lib/log/read-entry.ts';
import { paths } from '$lib/paths/paths.ts';
import type { Actions } from './$types';

/** The way without scripts: the same reading of the form, on the server. */
function save(kind: EntryKind) {
  return async ({ request, fetch, params }: RequestEvent<{ id: string }>) => {
    const [form, session, bin] = await Promise.all([request.formData(), need(fetch, 'readSession'), need(fetch, 'readBin', { params })]);
    const typed = Object.fromEntries([...form].filter(([, value]) => typeof value === 'string')) as Record<string, string>;
    const containers = await need(fetch, 'listContainers', { query: { siteId: bin.siteId } });
    const read = readEntryForm(kind, form, {
      binId: bin.id,
      zones: bin.zones,
      containers: containers.items,
      format: formatOf(session),
      now: new Date(),
    });
    if (!read.ok) return fail(400, { typed, fault: incomplete(read.faults) });
    const outcome = await call(fetch, CALL_OF[kind], { body: read.body as never });
    if (!outcome.ok) return fail(outcome.problem.status, { typed, fault: faultOf(outcome.problem) });
    redirect(303, `${paths.binLog(bin.id, kind)}&saved=${read.body.id}`);
  };
}

export const actions: Actions = {
  feeding: save('feeding'),
  check: save('check'),
  harvest: save('harvest'),
  care: save('care'),
  note: save('note'),
  worms: save('worms'),
};
