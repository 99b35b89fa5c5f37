import { fail, redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { paths } from '$lib/paths/paths.ts';
import { readWeeklyForm } from '$lib/shift/read-weekly-form.ts';
import type { Actions } from './$types';

const FIELDS: Readonly<Record<string, string>> = { '/localDate': 'from' };

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const form = await request.formData();
    const bins = await need(fetch, 'listBins', { query: { siteId: text(form, 'siteId') } });
    const ids = bins.items.filter((b) => b.state !== 'retired').map((b) => b.id);
    const read = readWeeklyForm(form, ids);
    if (!read.ok) return fail(400, { fault: incomplete(read.faults), typed: typedOf(form) });
    // Row by row, each with an id of its own: sent again after a break, the rows that are there stay as they are.
    for (const body of read.rows) {
      const outcome = await act(fetch, 'addShifts', { body }, form, (pointer) => FIELDS[pointer] ?? pointer.slice(1));
      if (!outcome.ok) return outcome.refused;
    }
    return redirect(303, `${paths.shifts}?done=made`);
  },
};
