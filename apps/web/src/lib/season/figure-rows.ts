/** The season on one page of figures, beside the same days a year before. */
import { kgFromGrams, litresFromMillilitres, shareKnown, sumKnown } from '@middenry/domain';
import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';
import { knownCell, knownText } from './known.ts';
import type { CountCell, CountRow, Season } from './types.ts';

type Part = Pick<Season, 'total' | 'people' | 'problems' | 'log'>;
type RowId = keyof typeof words.report.rows;

export function figureRows(season: Season, f: Format): CountRow[] {
  const { rows } = words.report;
  const now = cellsOf(season, f);
  const before = cellsOf(season.before, f);
  return (Object.keys(rows) as RowId[]).flatMap((id) => {
    const cells = [now[id], before[id] ?? { text: '' }];
    return cells[0] === undefined ? [] : [{ id, label: rows[id], cells: cells as CountCell[] }];
  });
}

/** What of all bedding and scraps became castings; empty where nothing was given. */
const yieldShown = ({ total }: Part, f: Format): string => {
  const inG = sumKnown(total.fedWeighedG, total.fedEstimatedG, total.beddingG);
  if (inG === null || total.harvestedG === null) return words.report.notCounted;
  const share = shareKnown(total.harvestedG, inG);
  return share === null ? words.report.none : f.percent(share);
};

function cellsOf(part: Part, f: Format): Partial<Record<RowId, CountCell>> {
  const { total, people, problems, log } = part;
  const w = words.report;
  const mass = knownCell((grams) => `${f.massValue(kgFromGrams(grams), 1)}\u00a0${f.massUnit}`);
  const count = knownCell(f.number);
  const plain = knownText(f.number);
  const hours = knownCell((minutes) => `${f.hoursShown(minutes)}\u00a0h`);
  const rates = 'rates' in part ? (part as Season).rates : null;
  return {
    fedWeighed: mass(total.fedWeighedG),
    fedEstimated: mass(total.fedEstimatedG),
    bedding: mass(total.beddingG),
    castings: mass(total.harvestedG),
    corrected: mass(total.castingsCorrectedG),
    volume: knownCell((ml) => f.litres(litresFromMillilitres(ml)))(total.castingsMl),
    yield: { text: yieldShown(part, f) },
    ...(rates === null ? {} : { perWeek: { text: knownText((grams) => f.massWhole(kgFromGrams(grams)))(rates.fedPerWeekG) } }),
    bins: count(log.binsKept),
    shifts: count(total.shifts),
    places: { text: w.places(plain(total.places), plain(total.placesTaken), plain(total.placesCame)) },
    planned: hours(total.minutesPlanned),
    given: hours(total.minutes),
    adults: count(people.adults),
    young: people.young === null ? { text: w.some } : count(people.young),
    found: count(problems.found),
    solved: count(problems.solved),
    days: { text: problems.daysToSolveMedian === null ? w.none : f.days(problems.daysToSolveMedian) },
    longest: { text: problems.daysToSolveLongest === null ? w.none : f.days(problems.daysToSolveLongest) },
    noted: { text: w.of(plain(log.binWeeksNoted), plain(log.binWeeks)) },
  };
}
