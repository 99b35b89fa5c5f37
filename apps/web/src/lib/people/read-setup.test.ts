import { SetupUse } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import { readSetup } from './read-setup.ts';

describe('readSetup()', () => {
  it('gives what the contract takes, with one bin for each that was counted', () => {
    const form = new FormData();
    const fields = {
      code: 'ABCD-1234',
      name: 'Juno B.',
      email: 'juno@garden.invalid',
      password: 'four odd words in a row',
      programmeName: 'Worms',
      timeZone: 'Europe/London',
      units: 'metric',
      siteName: 'Ropewalk',
      prefix: 'r',
      'kind-tote': '2',
      'kind-flow-through': '1',
      'kind-bed': '-3',
      'kind-pit': 'many',
    };
    for (const [name, value] of Object.entries(fields)) form.set(name, value);
    const body = readSetup(form, new Date('2026-11-25T23:30:00Z'));
    expect(SetupUse.safeParse(body).error?.issues).toBeUndefined();
    expect(body.bins?.map((b) => `${b.code} ${b.kind}`)).toEqual(['R01 tote', 'R02 tote', 'R03 flow-through']);
  });
});
