import { DUTY_RESULTS } from '@middenry/domain';
import type { BodyOf } from '../api/calls.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';
import type { Shift } from './types.ts';

type Body = BodyOf<'sayResults'>;
const MOST_MINUTES = 1440;
const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();

/** Field names of one duty, of one person. */
export const dutyField = (duty: { readonly binId: string; readonly kind: string }) => `duty-${duty.binId}-${duty.kind}`;
export const cameField = (signUpId: string) => `came-${signUpId}`;
export const minutesField = (signUpId: string) => `minutes-${signUpId}`;

/** What became of a shift; a question that nobody answered is left as it was. */
export function readResults(form: FormData, shift: Shift): { ok: true; body: Body } | { ok: false; faults: FieldFault[] } {
  const faults: FieldFault[] = [];
  const note = text(form, 'resultNote');
  const said = shift.duties.flatMap((duty) => {
    const result = DUTY_RESULTS.find((r) => r === text(form, dutyField(duty)));
    return result === undefined ? [] : [{ ...duty, result }];
  });
  // One note for the whole shift: it stands with the first thing that was not done, where it explains most.
  const noted = Math.max(
    0,
    said.findIndex(({ result }) => result !== 'done'),
  );
  const results = said.map((one, i) => ({ ...one, note: i === noted ? note : '' }));
  const came = shift.signUps.flatMap(({ id }) => {
    const here = text(form, cameField(id));
    if (here !== 'yes' && here !== 'no') return [];
    const typed = text(form, minutesField(id));
    const minutes = here === 'no' ? 0 : typed === '' ? null : Number(typed);
    if (minutes !== null && !(Number.isInteger(minutes) && minutes >= 0 && minutes <= MOST_MINUTES)) {
      faults.push({ field: minutesField(id), text: words.results.needMinutes });
      return [];
    }
    return [{ signUpId: id, attended: here === 'yes', minutes }];
  });
  return faults.length > 0 ? { ok: false, faults } : { ok: true, body: { results, came } };
}
