import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CARBON_ABOVE_PLANT_LIMIT, CATALOGUE, MATERIAL_IDS } from './catalogue.gen.ts';
import { cnRatioOf, isMaterialId, materialFault, materialOf, usableMaterials } from './material.ts';

const rows = MATERIAL_IDS.map((id) => CATALOGUE[id]);

describe('materials catalogue', () => {
  it('holds every row of the table once', () => {
    const keys = readFileSync(new URL('../../../../shared/materials.csv', import.meta.url), 'utf8')
      .trim()
      .split('\n')
      .slice(1)
      .map((line) => line.split(',')[0]);
    expect(MATERIAL_IDS).toEqual(keys);
    expect(new Set(keys).size).toBe(keys.length);
    expect(keys.length).toBeGreaterThan(100);
  });

  it('hides exactly the rows with a blank moisture, nitrogen or density', () => {
    const hint = 'a row with a blank figure is hidden: if its source does not print the figure, add the row to this list';
    expect(
      rows.filter((row) => row.hidden).map((row) => row.id),
      hint,
    ).toEqual(['veg_waste_nonlegume', 'cull_potatoes', 'tomato_processing_waste', 'potato_tops']);
    expect(usableMaterials.every((row) => row.moistureFracWb !== null && row.nitrogenFracDb !== null && row.bulkDensityKgM3 !== null)).toBe(
      true,
    );
  });

  it('lists the rows whose nitrogen times C:N passes 56 per cent carbon, and no others', () => {
    const hint =
      'nitrogen times C:N is more carbon than plants hold: look at the figures again; if the source is right, add the row to this list';
    expect(
      CARBON_ABOVE_PLANT_LIMIT.map(([id]) => id),
      hint,
    ).toEqual(['avocado', 'corn_cobs', 'manure_horse_shavings', 'biochar', 'cheese', 'egg_raw', 'meat_raw', 'fish_raw']);
  });

  it('keeps every fraction between 0 and 1 and carbon within volatile solids', () => {
    for (const row of rows.filter((each) => !each.hidden)) {
      for (const value of [row.moistureFracWb, row.organicFracDb, row.carbonFracDb, row.nitrogenFracDb, row.labileFrac]) {
        expect(value, row.id).toBeGreaterThanOrEqual(0);
        expect(value, row.id).toBeLessThanOrEqual(1);
      }
      expect((row.carbonFracDb ?? 0) + (row.nitrogenFracDb ?? 0), row.id).toBeLessThanOrEqual(row.organicFracDb ?? 0);
    }
  });

  it('derives C:N from stored carbon and nitrogen to what the table prints', () => {
    expect(cnRatioOf(materialOf({ material: 'food_scraps_veg' }))).toBeCloseTo(19, 6);
    expect(cnRatioOf(materialOf({ material: 'cardboard_corrugated' }))).toBeCloseTo(500, 6);
    expect(cnRatioOf(materialOf({ material: 'water' }))).toBe(Number.POSITIVE_INFINITY);
  });

  it('keeps carbonate and char out of the carbon that rots', () => {
    for (const material of ['biochar', 'lime_ag', 'rock_dust'] as const) expect(materialOf({ material }).carbonFracDb, material).toBe(0);
  });
});

describe('materialOf()', () => {
  it('refuses what is never fed, unknown, blank or unnamed, and says which', () => {
    expect(materialFault({ material: 'meat_raw' })).toBe('never-fed');
    expect(materialFault({ material: 'potato_tops' })).toBe('figure-missing');
    expect(materialFault({ material: 'constructor' })).toBe('unknown-material');
    expect(materialFault({})).toBe('no-material');
    expect(() => materialOf({ material: 'meat_raw' })).toThrow(/never-fed: current value is meat_raw/);
    expect(() => materialOf({ material: 'potato_tops' })).toThrow(RangeError);
  });

  it('takes a composition as it is given', () => {
    const composition = {
      moistureFracWb: 0.8,
      organicFracDb: 0.9,
      carbonFracDb: 0.45,
      nitrogenFracDb: 0.02,
      labileFrac: 0.7,
      labileRatePerDay: 0.08,
      slowRatePerDay: 0.006,
    };
    expect(materialOf({ composition })).toMatchObject({ ...composition, qualityRatio: 1, kind: 'food' });
  });

  it('marks what to keep back', () => {
    expect(CATALOGUE.orange_peel.keepBack).toBe('citrus');
    expect(CATALOGUE.onion.keepBack).toBe('onion');
    expect(CATALOGUE.bread_white.keepBack).toBe('starchy');
    expect(CATALOGUE.seaweed_kelp.keepBack).toBe('salty');
    expect(CATALOGUE.carrot.keepBack).toBeNull();
    expect(isMaterialId('carrot')).toBe(true);
  });
});

describe('decay table 7b', () => {
  it('gives the half-gone days that it prints beside each row (derived check)', () => {
    const lines = readFileSync(new URL('../../../../shared/decay-rates.csv', import.meta.url), 'utf8')
      .trim()
      .split('\n')
      .slice(1);
    const checked = lines.flatMap((line) => {
      const cells = line.match(/("[^"]*"|[^,]*)(?:,|$)/g)?.map((cell) => cell.replace(/,$/, '')) ?? [];
      const [labile, fast, slow, printed] = cells.slice(2, 6).map(Number) as [number, number, number, number];
      if (!(printed > 0)) return [];
      let day = 0;
      while (labile * Math.exp(-fast * day) + (1 - labile) * Math.exp(-slow * day) > 0.5) day += 0.1;
      return [{ row: cells[0], printed, day }];
    });
    expect(checked).toHaveLength(16);
    for (const { row, printed, day } of checked) expect(Math.abs(day - printed) / printed, String(row)).toBeLessThan(0.05);
  });
});
