import { describe, expect, it } from 'vitest';
import { cameField, dutyField, minutesField, readResults } from './read-results.ts';
import type { Shift } from './types.ts';

const shift = {
  duties: [
    { binId: 'a', kind: 'feed' },
    { binId: 'a', kind: 'check' },
  ],
  signUps: [{ id: 'p' }, { id: 'q' }],
} as unknown as Shift;
const formOf = (fields: Record<string, string>) => {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.set(name, value);
  return form;
};

describe('readResults()', () => {
  it('takes what was answered and leaves the rest as it was', () => {
    const form = formOf({
      [dutyField({ binId: 'a', kind: 'feed' })]: 'partly',
      resultNote: 'ran out of card',
      [cameField('p')]: 'yes',
      [minutesField('p')]: '45',
    });
    expect(readResults(form, shift)).toEqual({
      ok: true,
      body: {
        results: [{ binId: 'a', kind: 'feed', result: 'partly', note: 'ran out of card' }],
        came: [{ signUpId: 'p', attended: true, minutes: 45 }],
      },
    });
  });
  it('gives nobody minutes who did not come, whatever stands in the field', () => {
    expect(readResults(formOf({ [cameField('q')]: 'no', [minutesField('q')]: '60' }), shift)).toMatchObject({
      body: { came: [{ signUpId: 'q', attended: false, minutes: 0 }] },
    });
  });
  it.each(['1.5', '-1', '2000', 'an hour'])('refuses %s minutes at its field', (typed) => {
    const read = readResults(formOf({ [cameField('p')]: 'yes', [minutesField('p')]: typed }), shift);
    expect(read).toMatchObject({ ok: false, faults: [{ field: 'minutes-p' }] });
  });
});
