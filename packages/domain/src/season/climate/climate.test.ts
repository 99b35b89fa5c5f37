import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SeasonRow } from '../season-row.ts';
import { CLIMATE_FACTOR_SETS, composting, COMPOSTING_GASES as G, perShortTon } from './factors.ts';
import { climateFigure } from './figure.ts';
import { climateScraps } from './scraps.ts';

const exactly = (g: number) => ({ low: g, mid: g, high: g });
const setOf = (id: string) => CLIMATE_FACTOR_SETS.find((one) => one.id === id)!;
const fed = (grams: number, how: SeasonRow['how'], materialId = 'apple', type: SeasonRow['type'] = 'feeding'): SeasonRow => ({
  ...{ type, siteId: 's', binId: 'b', localDate: '2026-09-01', grams, how, minutes: 0, entries: 1, materialId },
});

describe('factors', () => {
  it('by hand: 0.68 t a short ton of 907.18474 kg are 749.6 kg a tonne, 0.11 are 121.3, 0.07 are 77.2', () => {
    expect([0.68, 0.11, 0.07].map((t) => perShortTon(t).toFixed(1))).toEqual(['749.6', '121.3', '77.2']);
  });

  it('by hand: composting gives off 4 x 28 + 0.24 x 265 = 175.6 kg a tonne, 0.84 + 15.9 at the least, 224 + 159 at most', () => {
    const pairs = [composting(G.methaneLow, G.nitrousLow), composting(G.methane, G.nitrous), composting(G.methaneHigh, G.nitrousHigh)];
    expect(pairs.map((kg) => kg.toFixed(2))).toEqual(['16.74', '175.60', '383.00']);
  });

  it('each set rises from low to high and says where it is from', () => {
    for (const { landfill, process, source, edition, region } of CLIMATE_FACTOR_SETS) {
      for (const { low, mid, high } of [landfill, process]) expect([low <= mid, mid <= high]).toEqual([true, true]);
      expect([source.includes(edition), region.length > 0]).toEqual([true, true]);
    }
  });
});

describe('climateFigure()', () => {
  it('D5: by hand: 250 kg of scraps, 250 x 0.7496 = 187.4 kg in a landfill, 250 x 0.1213 = 30.3 kg in the bin, 157.1 between them', () => {
    const { landfillAvoidedG, processG, differenceG } = climateFigure(exactly(250_000), setOf('us-epa-2026'), 100);
    expect([landfillAvoidedG.mid, processG.mid, differenceG.mid]).toEqual([187_393, 30_314, 157_079]);
    // 0.28 t a short ton: 77.2 kg; the bin at its worst gives off 95.75 kg, so it may have been worse than the landfill.
    expect([landfillAvoidedG.low, processG.high, differenceG.low]).toEqual([77_162, 95_750, -18_588]);
  });

  it('by hand: of 1000 kg 40 % would have gone to a landfill: 280.1 kg avoided, and 175.6 kg given off by all of it', () => {
    const figure = climateFigure(exactly(1_000_000), setOf('uk-2024'), 40);
    expect([figure.landfillAvoidedG.mid, figure.processG.mid, figure.differenceG.mid]).toEqual([280_084, 175_600, 104_484]);
  });

  it('the middle lies between low and high in every line, and nothing fed is nothing', () => {
    const rising = fc.tuple(fc.nat(2000), fc.nat(2000), fc.nat(2000)).map((three) => {
      const [low, mid, high] = three.sort((a, b) => a - b) as [number, number, number];
      return { low, mid, high };
    });
    fc.assert(
      fc.property(rising, rising, rising, fc.nat(100), (kg, landfill, process, percent) => {
        const scraps = { low: kg.low * 1000, mid: kg.mid * 1000, high: kg.high * 1000 };
        for (const { low, mid, high } of Object.values(climateFigure(scraps, { landfill, process }, percent)))
          if (!(low <= mid + 1 && mid <= high + 1)) return false;
        return true;
      }),
    );
    expect(climateFigure(exactly(0), setOf('uk-2026'), 100).differenceG).toEqual(exactly(0));
  });

  it('refuses a share above the whole and figures that do not rise', () => {
    expect(() => climateFigure(exactly(1), setOf('uk-2026'), 101)).toThrow(RangeError);
    expect(() => climateFigure({ low: 2, mid: 1, high: 3 }, setOf('uk-2026'), 100)).toThrow(RangeError);
  });
});

describe('climateScraps()', () => {
  it('by hand: 10 kg weighed, 4 kg by the bucket, 1.6 kg guessed are 13.7 to 17.86 kg; card among the food is left out', () => {
    const rows = [
      ...[fed(10_000, 'weighed'), fed(4000, 'container'), fed(1600, 'guessed'), fed(700, 'weighed', 'cardboard')],
      ...[fed(900, null, 'cardboard', 'bedding'), fed(5000, 'weighed', 'apple', 'harvest')],
    ];
    // 9.7 + 3 + 1 and 10.3 + 5 + 2.56
    expect(climateScraps(rows, (id) => id === 'apple')).toEqual({ scrapsG: { low: 13_700, mid: 15_600, high: 17_860 }, notScrapsG: 700 });
  });
});
