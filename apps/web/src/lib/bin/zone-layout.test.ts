import { describe, expect, it } from 'vitest';
import { layoutZones, zonesInReadingOrder } from './zone-layout.ts';

describe('layoutZones()', () => {
  it('walks six zones to and fro', () => {
    expect(zonesInReadingOrder(6)).toEqual([1, 2, 3, 6, 5, 4]);
    expect(zonesInReadingOrder(1)).toEqual([1]);
    expect(zonesInReadingOrder(5)).toEqual([1, 2, 3, null, 5, 4]);
  });

  it.each(Array.from({ length: 12 }, (_, i) => i + 1))('puts each of %i zones beside the one before', (zones) => {
    const { cells, columns, rows } = layoutZones(zones);
    expect(cells.map((c) => c.zone)).toEqual(Array.from({ length: zones }, (_, i) => i + 1));
    expect(columns).toBeLessThanOrEqual(4);
    for (const [i, cell] of cells.entries()) {
      expect(cell.row).toBeLessThan(rows);
      const before = cells[i - 1];
      if (before) expect(Math.abs(before.column - cell.column) + Math.abs(before.row - cell.row)).toBe(1);
    }
  });
});
