/** Many phones at once: the first look, a usual hour until it bends, a class that comes back from the garden, and what goes through all bins (criteria F27, F28, F24). */
import { classRows } from './load-home.ts';
import { usualRows } from './load-hour.ts';
import { stageOf } from './load-stage.ts';
import { wholeRows } from './load-whole.ts';

const PHONES = 300;
/** A programme of sixty has five years behind it; more bins than that have a fortnight, or the first look alone would take hours. */
const FIVE_YEARS = { mostBins: 60, years: 5 };

/** Everything for so many bins: 60 is the wish, 600 and 10,000 say where it goes. */
export async function benchLoad({ bins }: { bins: number }): Promise<string> {
  const years = bins <= FIVE_YEARS.mostBins ? FIVE_YEARS.years : 0;
  const stage = await stageOf({ people: PHONES, bins, years });
  const memory = () => `The server has held ${stage.mostMemoryMb().toFixed(0)} MB at most.`;
  try {
    const { look } = stage;
    const notes = `${look.notes} notes meanwhile, the slowest ${look.slowestNoteMs.toFixed(0)} ms.`;
    const parts = [
      `${stage.binIds.length} bins, ${stage.entries} entries (${years > 0 ? `${years} years` : 'a fortnight of each bin'}), ${PHONES} people. Made in ${stage.madeS.toFixed(0)} s.`,
      `First look ${look.tookS.toFixed(1)} s${look.missing > 0 ? `, ${look.missing} bins still missing then` : ''}: ${look.boards} boards told meanwhile, the slowest after ${look.slowestBoardMs.toFixed(0)} ms, ${look.refused} refused; ${notes} ${memory()}`,
      await wholeRows(stage),
      await usualRows(stage),
      memory(),
      await classRows(stage),
      memory(),
    ];
    return parts.join('\n\n');
  } finally {
    await stage.close();
  }
}
