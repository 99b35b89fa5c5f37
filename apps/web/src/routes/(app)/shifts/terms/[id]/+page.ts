import { error } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, parent, depends }) => {
  depends('app:shifts');
  const { session } = await parent();
  const term = (await need(fetch, 'listSignUpSeasons')).items.find((t) => t.id === params.id);
  if (!term) error(404, { message: 'not-found', code: 'not-found' });
  const from = [term.from, session.today].sort().at(-1);
  const shifts = await need(fetch, 'listShifts', { query: { from, to: term.to, siteId: term.siteId } });
  return { term, shifts: shifts.items.filter((s) => !s.cancelled && !s.over) };
};
