import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ACCURACY_TAGS } from './accuracy-row.ts';
import { experimentCells, experimentSummary } from './experiment-meter.ts';
import { accuracyCells, asMarkdown, holds } from './meter.ts';
import { ACCURACY_SOURCES } from './registry.ts';

const headings = readFileSync(new URL('../../../shared/sources.md', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => line.startsWith('### '))
  .map((line) => line.slice(4));

describe.each(ACCURACY_SOURCES.map((source) => [source.source, source] as const))('published: %s', (key, { rows }) => {
  it('has its place in shared/sources.md', () => expect(headings).toContain(key));

  it.each(rows.map((row) => [row.id, row.quantity, row] as const))('%s: %s', (_, __, row) => {
    expect(ACCURACY_TAGS).toContain(row.tag);
    expect(Number.isFinite(row.ours())).toBe(true);
    expect(holds(row), `published ${row.published}, ours ${row.ours()}, tolerance ${row.tolerance}`).toBe(true);
  });
});

describe('the meter', () => {
  const row = { id: 'x', quantity: 'q', unit: 'kg', published: 2, tolerance: 0.1, toleranceWhy: 'test', tag: 'seen' as const };

  it('says NO where ours is off', () => {
    expect(holds({ ...row, ours: () => 2.2 })).toBe(false);
    expect(accuracyCells([{ source: 's', rows: [{ ...row, ours: () => 2.2 }] }])[1]?.at(-1)).toBe('NO');
  });

  it('wants a known slip to differ and to meet the right figure', () => {
    expect(holds({ ...row, tag: 'negative', right: 3, ours: () => 3 })).toBe(true);
    expect(holds({ ...row, tag: 'negative', right: 3, ours: () => 2 })).toBe(false);
    expect(holds({ ...row, tag: 'negative', right: 3, ours: () => 4 })).toBe(false);
  });

  it('names each check once', () => {
    const ids = ACCURACY_SOURCES.flatMap(({ source, rows }) => rows.map(({ id }) => `${source} ${id}`));
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('prints the head, a rule and one line per check as markdown', () => {
    expect(asMarkdown(accuracyCells(ACCURACY_SOURCES)).split('\n')).toHaveLength(2 + ACCURACY_SOURCES.flatMap(({ rows }) => rows).length);
  });
});

describe('the experiments of the meter', () => {
  const row = { study: 'X', grade: 'A', quantity: 'q', published: 2, low: 1, high: 3, tolerance: '1 to 3', note: '' } as const;
  const study = { id: 'X', grade: 'A', citation: 'c', fittedOn: 'nothing', run: () => ({ qualityRatio: null, rows: [] }) } as const;
  const rows = [
    { ...row, ours: 2, within: true, scored: true },
    { ...row, ours: 9, within: false, scored: true },
    { ...row, ours: 9, within: false, scored: false },
  ];

  it('prints every figure, misses and unscored ones too', () => {
    expect(experimentCells([{ study, rows }]).map((cells) => cells[7])).toEqual(['inside', 'yes', 'NO', 'not scored']);
  });

  it('sums up by study and over all', () => {
    const [, line, all] = experimentSummary([{ study, rows }]);
    expect(line?.slice(4)).toEqual(['3', '2', '1']);
    expect(all?.slice(4)).toEqual(['3', '2', '1']);
  });
});
