import { expect, test } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { hindranceWords } from './run-words.ts';

const f = makeFormat({ units: 'metric', locale: 'en-GB', timeZone: 'Europe/London', today: '2026-11-25' });
const shift = (localDate: string) => ({
  ...{ id: localDate, siteId: 's', siteName: 'Long Meadow', title: 'Round', localDate, localTime: '10:00', minutes: 60 },
  ...{ places: 1, taken: 1, startsAt: `${localDate}T10:00:00.000Z`, timeZone: 'Europe/London', cancelled: false, over: false },
});

test('a gap names the shifts that stand in the way, and which of them nobody has agreed to yet', () => {
  const person = { id: 'p', name: 'Maren Quill' };
  const of = (rule: string, shifts: object[], proposed = false) =>
    hindranceWords({ person, hindrances: [{ rule, shifts, proposed }] } as unknown as Parameters<typeof hindranceWords>[0], f);
  expect(of('away', [])).toBe('Maren Quill: is away');
  const two = of('cap-week', [shift('2026-12-08'), shift('2026-12-10')]);
  expect(two).toMatch(/^Maren Quill: has enough that week \(.*8 Dec.*Long Meadow; .*10 Dec.*Long Meadow\)$/);
  expect(of('two-at-once', [shift('2026-12-08')], true)).toMatch(/\(.*Long Meadow; in part only proposed\)$/);
});
