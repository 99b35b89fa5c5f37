/** G8: files as people keep them, each with the right reading beside it. Nothing may be read wrongly without a word. */
import { type ImportItem, NO_ANSWERS, type RowRead, readSheet } from '@middenry/domain';
import { describe, expect, it, test } from 'vitest';
import { cellsOf } from '../../apps/api/src/services/import/cells.ts';
import { answersOf, BY_HAND } from './import/by-hand.ts';
import { render, type Style } from './import/render.ts';
import { STYLES } from './import/styles.ts';
import { AHEAD, BINS, FED, KNOWN } from './import/truth.ts';

const nameOf = (style: Style): string =>
  [style.language, style.date, style.unit, style.encoding, JSON.stringify(style.delimiter), ...style.extras].join(' ');

interface Tally {
  right: number;
  refused: number;
  wrong: string[];
}

async function tally(style: Style): Promise<Tally> {
  const { bytes, rowOf } = render(style);
  const { rows } = readSheet('feedings', await cellsOf(bytes), { ...NO_ANSWERS, shortYears: true }, KNOWN);
  const found: Tally = { right: 0, refused: 0, wrong: [] };
  const meant = new Map(rowOf.map((row, at) => [row, FED[at]!]));
  for (const one of rows) {
    const truth = meant.get(one.row);
    if (truth === undefined && one.state === 'ready') found.wrong.push(`row ${one.row} is none`);
    if (truth === undefined || one.state === 'skipped') continue;
    const isAhead = truth === FED[AHEAD];
    if (one.state === 'refused') {
      const isRight = isAhead && one.faults.length === 1 && one.faults[0]?.reason === 'in-future';
      if (isRight) found.right += 1;
      else found.refused += 1;
    } else if (isAhead || one.item.kind !== 'feedings') found.wrong.push(`row ${one.row} was taken`);
    else {
      const { day, binId, materialId, grams, personId, note } = one.item;
      const read = { day, binId, materialId, grams, personId, note };
      const right = {
        day: truth.day,
        binId: BINS[truth.bin]!.id,
        materialId: truth.material,
        grams: truth.grams,
        personId: truth.person,
        note: truth.note,
      };
      if (JSON.stringify(read) === JSON.stringify(right)) found.right += 1;
      else found.wrong.push(`row ${one.row}: ${JSON.stringify(read)}`);
    }
  }
  return found;
}

const words = (item: ImportItem): string => {
  const shown = (value: unknown) => (value === null ? '-' : String(value));
  switch (item.kind) {
    case 'feedings':
      return [item.day, item.binId, item.materialId, item.grams].join(' ');
    case 'harvests':
      return [item.day, item.binId, item.grams, item.destination].join(' ');
    case 'checks':
      return [item.day, item.binId, ...[item.squeeze, item.smell, item.bedTempC, item.ph].map(shown)].join(' ');
    case 'hours':
      return [item.day, item.personId, item.siteId, item.minutes].join(' ');
  }
};
const said = (row: RowRead): string => (row.state === 'ready' ? words(row.item) : row.state === 'refused' ? '-' : '');

describe('G8: files as people keep them', () => {
  it('are sixty and more', () => {
    expect(new Set(STYLES.map(nameOf)).size + BY_HAND.length).toBeGreaterThanOrEqual(60);
  });

  it('are read right in at least 95 of 100 rows, and none of them wrongly', async () => {
    const all = await Promise.all(STYLES.map(async (style) => ({ name: nameOf(style), ...(await tally(style)) })));
    expect(all.filter(({ wrong }) => wrong.length > 0)).toEqual([]);
    const right = all.reduce((sum, one) => sum + one.right, 0);
    expect(all.filter((one) => one.refused > 0).map(({ name, refused }) => `${name}: ${refused} refused`)).toEqual([]);
    expect(right / (STYLES.length * FED.length)).toBeGreaterThanOrEqual(0.95);
  });

  test.each(BY_HAND.map((one) => [one.name, one] as const))('%s', async (_name, one) => {
    const { rows, questions } = readSheet(one.kind, await cellsOf(Buffer.from(one.text)), answersOf(one), KNOWN);
    expect(rows.map(said)).toEqual(one.rows);
    expect(questions.map(({ ask }) => ask)).toEqual(one.asks ?? []);
  });
});
