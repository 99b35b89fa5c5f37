import { describe, expect, it } from 'vitest';
import { firstOn, readWeeklyForm, weekdayOf } from './read-weekly-form.ts';

const formOf = (fields: Record<string, string>, days: readonly string[]) => {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.set(name, value);
  for (const day of days) form.append('day', day);
  return form;
};
const TERM = {
  from: '2026-11-25',
  title: 'Feeding',
  minutes: '60',
  places: '2',
  weeks: '12',
  siteId: 's',
  'start-3': '9.30',
  'start-6': '14:00',
};

describe('a weekly plan', () => {
  it('weekdayOf() knows Monday as 1, before and after the epoch', () => {
    expect(['2026-11-23', '2026-11-25', '2026-11-29', '1969-12-29'].map(weekdayOf)).toEqual([1, 3, 7, 1]);
  });
  it('firstOn() finds the day itself, or the next such day', () => {
    expect(firstOn(3, '2026-11-25')).toBe('2026-11-25');
    expect(firstOn(2, '2026-11-25')).toBe('2026-12-01');
  });
  it('readWeeklyForm() makes a row for each day, at all bins of the site where none is ticked', () => {
    const read = readWeeklyForm(formOf({ ...TERM, 'id-3': 'a', 'id-6': 'b', duty: 'feed' }, ['3', '6']), ['x', 'y']);
    expect(read).toMatchObject({
      ok: true,
      rows: [
        { id: 'a', localDate: '2026-11-25', localTime: '09:30', weeks: 12, binIds: ['x', 'y'], duties: [{ binId: 'x', kind: 'feed' }, {}] },
        { id: 'b', localDate: '2026-11-28', localTime: '14:00' },
      ],
    });
  });
  it('readWeeklyForm() asks for a day, and for a start only of days that are ticked', () => {
    expect(readWeeklyForm(formOf(TERM, []), [])).toMatchObject({ faults: [{ field: 'days' }] });
    expect(readWeeklyForm(formOf({ ...TERM, 'start-6': 'noon', 'start-1': 'never' }, ['6']), [])).toMatchObject({
      faults: [{ field: 'start-6' }],
    });
  });
});
