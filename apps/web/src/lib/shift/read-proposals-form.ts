import type { BodyOf } from '../api/calls.ts';
import { readTime } from '../format/typed-day.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';
import type { ShiftProposal } from './types.ts';

type Accepted = BodyOf<'acceptProposals'>['shifts'][number];
type ReadShift = { readonly ok: true; readonly shift: Accepted } | { readonly ok: false; readonly fault: FieldFault };
const LEAST_MINUTES = 10;
const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();

/** Proposals that were ticked, moved as typed; one that is put together with another gives it its duties and minutes. */
export function readProposals(
  form: FormData,
  proposals: readonly ShiftProposal[],
): { ok: true; shifts: Accepted[] } | { ok: false; faults: FieldFault[] } {
  const ticked = proposals.filter(({ key }) => form.getAll('take').includes(key));
  if (ticked.length === 0) return { ok: false, faults: [{ field: 'proposals', text: words.proposals.none }] };
  const into = (key: string) => ticked.find((p) => p.key === text(form, `merge-${key}`) && p.key !== key);
  const heads = ticked.filter(({ key }) => into(key) === undefined);
  // Two that name each other would both vanish: then each stands alone.
  const alone = heads.length === 0 ? ticked : heads;
  const read = alone.map((head) => readOne(form, head, heads.length === 0 ? [] : ticked.filter(({ key }) => into(key) === head)));
  const faults = read.flatMap((one) => (one.ok ? [] : [one.fault]));
  return faults.length > 0 ? { ok: false, faults } : { ok: true, shifts: read.flatMap((one) => (one.ok ? [one.shift] : [])) };
}

function readOne(form: FormData, head: ShiftProposal, merged: readonly ShiftProposal[]): ReadShift {
  const { key } = head;
  const localDate = text(form, `date-${key}`) || head.localDate;
  const localTime = head.standingId === null ? readTime(text(form, `start-${key}`) || head.localTime) : head.localTime;
  const minutes = Number(text(form, `minutes-${key}`) || head.minutes) + merged.reduce((sum, p) => sum + p.minutes, 0);
  const places = Number(text(form, `places-${key}`) || head.places);
  const whole = Number.isInteger(minutes) && minutes >= LEAST_MINUTES && Number.isInteger(places) && places >= 1;
  if (!whole || localTime === null || !/^\d{4}-\d\d-\d\d$/.test(localDate))
    return { ok: false, fault: { field: `date-${key}`, text: words.proposals.bad } };
  const all = [head, ...merged].flatMap(({ duties }) => duties.map(({ binId, kind }) => ({ binId, kind })));
  const duties = all.filter((duty, at) => all.findIndex((d) => d.binId === duty.binId && d.kind === duty.kind) === at);
  const title = text(form, `title-${key}`) || words.proposals.usual;
  return { ok: true, shift: { standingId: head.standingId, title, localDate, localTime, minutes, places, duties } };
}
