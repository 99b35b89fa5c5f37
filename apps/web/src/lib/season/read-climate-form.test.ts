import { describe, expect, it } from 'vitest';
import { readClimateForm } from './read-climate-form.ts';

const good = {
  ...{ name: 'Set', edition: '2026', region: 'Here', basis: '100 years', source: 'A table, page 3', confirmed: 'on' },
  ...{ 'landfill-low': '308,65', 'landfill-mid': '749.57', 'landfill-high': '749.57', landfillPercent: '60 %' },
  ...{ 'process-low': '16.74', 'process-mid': '121.25', 'process-high': '383' },
};
function read(change: Readonly<Record<string, string | null>>) {
  const form = new FormData();
  for (const [name, value] of Object.entries({ ...good, ...change })) if (value !== null) form.set(name, value);
  const answer = readClimateForm(form);
  return answer.ok ? answer.body : answer.faults.map(({ field }) => field);
}

describe('readClimateForm()', () => {
  it('D5: takes factors with a source that somebody says they looked up, with a comma or a point', () => {
    expect(read({})).toEqual({
      ...{ name: 'Set', edition: '2026', region: 'Here', basis: '100 years', source: 'A table, page 3' },
      ...{ landfill: { low: 308.65, mid: 749.57, high: 749.57 }, process: { low: 16.74, mid: 121.25, high: 383 } },
      ...{ landfillPercent: 60, confirmed: true },
    });
  });

  it.each([
    ['an empty source', { source: ' ' }, 'source'],
    ['no tick', { confirmed: null }, 'confirmed'],
    ['a range that falls', { 'landfill-low': '800' }, 'landfill-low'],
    ['a missing end', { 'process-high': '' }, 'process-low'],
    ['a pound among the kilograms', { 'process-mid': '121 lb' }, 'process-low'],
    ['no share', { landfillPercent: '' }, 'landfillPercent'],
    ['half a per cent', { landfillPercent: '0.5' }, 'landfillPercent'],
  ])('refuses %s', (_, change, field) => {
    expect(read(change)).toEqual([field]);
  });
});
