import { fail, redirect } from '@sveltejs/kit';
import { call, need } from '$lib/api/call.ts';
import { farAddressOf } from '$lib/api/far-address.ts';
import { putOnNextShift } from '$lib/bin/next-shift.ts';
import { text, typedOf } from '$lib/errors/act.ts';
import type { FormFault } from '$lib/errors/form-fault.ts';
import { formatOf } from '$lib/format/from-session.ts';
import { words } from '$lib/messages/index.ts';
import { paths } from '$lib/paths/paths.ts';
import { choiceOf, FIRST_FOOD, readShown, roomOf } from '$lib/what-if/choice.ts';
import { planOf } from '$lib/what-if/plan-line.ts';
import { readShownQuantity } from '$lib/what-if/shown-quantities.ts';
import type { Actions, PageServerLoad } from './$types';

/** The server answers what the address asks, so that a shared link shows its answer at once and without scripts too. */
export const load: PageServerLoad = async ({ fetch, params, url }) => {
  const [session, bin, materials] = await Promise.all([
    need(fetch, 'readSession'),
    need(fetch, 'readBin', { params }),
    need(fetch, 'listMaterials'),
  ]);
  const { units } = formatOf(session).settings;
  const room = roomOf(bin, units);
  const foods = materials.items
    .filter(({ kind, hidden }) => (kind === 'food' || kind === 'amendment') && !hidden)
    .map(({ id, name }) => ({ id, name }));
  const said = readShown(url.searchParams, room, units);
  const shown = foods.some(({ id }) => id === said.food) ? said : { ...said, food: FIRST_FOOD };
  const told = await need(fetch, 'readWhatIf', { params, query: { ...choiceOf(shown, units) } });
  return {
    bin,
    room,
    foods,
    first: { shown, answer: told.answer, without: told.without, quantity: readShownQuantity(url.searchParams.get('show')) },
    membersAt: farAddressOf('readEnsemble', params),
    plannedOn: url.searchParams.get('planned'),
  };
};

const refused = (form: FormData, heading: string) =>
  fail(409, { fault: { heading, faults: [] } satisfies FormFault as FormFault, typed: typedOf(form) });

export const actions: Actions = {
  /** Makes a choice the plan: duties of the next shift, with the amounts in its note. */
  plan: async ({ request, fetch, params }) => {
    const [form, session, bin] = await Promise.all([request.formData(), need(fetch, 'readSession'), need(fetch, 'readBin', { params })]);
    const format = formatOf(session);
    const { units } = format.settings;
    const said = new URLSearchParams(text(form, 'choice'));
    const choice = choiceOf(readShown(said, roomOf(bin, units), units), units);
    const materials = await call(fetch, 'listMaterials');
    const food = materials.ok ? materials.data.items.find(({ id }) => id === choice.food)?.name : undefined;
    const { kinds, line } = planOf(choice, food ?? words.whatIf.mass, format);
    if (kinds.length === 0) return refused(form, words.whatIf.noPlan);
    const put = await putOnNextShift(fetch, bin, { kinds, line, today: session.today }, form);
    if (put === null) return refused(form, words.deeds.noShift);
    if (!put.ok) return put.refused;
    said.set('planned', put.shiftId);
    redirect(303, `${paths.whatIf(bin.id)}?${said}`);
  },
};
