import { describe, expect, it } from 'vitest';
import { readProposals } from './read-proposals-form.ts';
import type { ShiftProposal } from './types.ts';

const proposal = (key: string, binId: string, kind: 'feed' | 'check') =>
  ({
    key,
    standingId: null,
    localDate: '2026-11-28',
    localTime: '10:00',
    minutes: 30,
    places: 2,
    duties: [{ binId, kind }],
  }) as unknown as ShiftProposal;
const three = [proposal('a', 'x', 'feed'), proposal('b', 'x', 'check'), proposal('c', 'y', 'feed')];
const formOf = (take: readonly string[], fields: Record<string, string> = {}) => {
  const form = new FormData();
  for (const key of take) form.append('take', key);
  for (const [name, value] of Object.entries(fields)) form.set(name, value);
  return form;
};

describe('readProposals()', () => {
  it('takes the ticked ones, moved as typed', () => {
    expect(readProposals(formOf(['a'], { 'date-a': '2026-11-29', 'start-a': '2 pm' }), three)).toMatchObject({
      shifts: [{ localDate: '2026-11-29', localTime: '14:00', duties: [{ binId: 'x', kind: 'feed' }] }],
    });
  });
  it('puts one together with another: its duties and its minutes', () => {
    expect(readProposals(formOf(['a', 'c'], { 'merge-c': 'a' }), three)).toMatchObject({
      shifts: [{ minutes: 60, duties: [{ binId: 'x' }, { binId: 'y' }] }],
    });
  });
  it('loses nothing where two name each other, or one names what is not ticked', () => {
    const both = readProposals(formOf(['a', 'c'], { 'merge-c': 'a', 'merge-a': 'c' }), three);
    expect(both.ok && both.shifts.length).toBe(2);
    const gone = readProposals(formOf(['c'], { 'merge-c': 'a' }), three);
    expect(gone.ok && gone.shifts.length).toBe(1);
  });
  it('asks for a tick, and points at what cannot be read', () => {
    expect(readProposals(formOf([]), three)).toMatchObject({ faults: [{ field: 'proposals' }] });
    expect(readProposals(formOf(['a'], { 'places-a': 'two' }), three)).toMatchObject({ faults: [{ field: 'date-a' }] });
  });
});
