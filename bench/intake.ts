import { materialOf, planIntake, USUAL_MIX } from '@middenry/domain';
import { highsSolver } from '../apps/api/src/solver/highs-solver.ts';
import { repeat, table, timesOf } from './measure.ts';

const kinds = ['food_scraps_veg', 'fruit_waste_mixed', 'coffee_grounds', 'lettuce', 'food_waste_cafeteria', 'apple_pomace'] as const;

const foods = kinds.map((material) => materialOf({ material }));

/** Sixty bins of different sizes, six streams that do not all fit, bedding that does not last. */
function made(bins: number, streams: number) {
  return {
    streams: Array.from({ length: streams }, (_, index) => ({
      id: `stream ${index}`,
      massKg: 20 + 7 * index,
      facts: foods[index % foods.length] ?? materialOf({ material: 'food_scraps_veg' }),
    })),
    bins: Array.from({ length: bins }, (_, index) => ({ id: `bin ${index}`, adviceKg: index % 9 === 0 ? 0 : 1 + (index % 7) })),
    bedding: [
      { id: 'card', massKg: 8, facts: materialOf({ material: 'cardboard_corrugated' }) },
      { id: 'paper', massKg: 3, facts: materialOf({ material: 'newsprint_shredded' }) },
    ],
    reference: materialOf({ material: 'food_scraps_veg' }),
    mix: USUAL_MIX,
  };
}

/** The intake plan, without and with a forecast that makes every fifth bin smaller; the forecast itself costs nothing here. */
export async function benchIntake(): Promise<string> {
  const { solve, close } = highsSolver();
  const ask = made(60, 6);
  const risky = ({ binId, scraps }: { binId: string; scraps: readonly { massKg: number }[] }): number =>
    Number(binId.slice(4)) % 5 === 0 && scraps.reduce((sum, { massKg }) => sum + massKg, 0) > 1.5 ? 0.4 : 0.03;
  try {
    const plain = await repeat(() => planIntake(ask, solve), { warmUps: 2, count: 10 });
    const forecast = await repeat(() => planIntake(ask, solve, risky), { warmUps: 1, count: 5 });
    const plan = await planIntake(ask, solve, risky);
    const kg = (parts: readonly { massKg: number }[]): string => parts.reduce((sum, { massKg }) => sum + massKg, 0).toFixed(1);
    const row = (name: string, times: number[]): (string | number)[] => [name, timesOf(times).medianMs, timesOf(times).p95Ms];
    return [
      table(['60 bins x 6 streams', 'median ms', 'p95 ms'], [row('plan', plain), row('plan scaled by a forecast', forecast)]),
      '',
      `Offered ${kg(ask.streams)} kg, placed ${kg(plan.feedings.flatMap(({ scraps }) => scraps))} kg, left over ${kg(plan.leftOver)} kg, bedding missing ${kg(plan.beddingMissing)} kg, ${plan.rounds} rounds anew.`,
    ].join('\n');
  } finally {
    await close();
  }
}
