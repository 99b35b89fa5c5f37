/** The season on one page of figures, beside the same days a year before. */
import { kgFromGrams, litresFromMillilitres } from '@middenry/domain';
import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';
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
  const inG = total.fedWeighedG + total.fedEstimatedG + total.beddingG;
  return inG === 0 ? words.report.none : f.percent(total.harvestedG / inG);
};

function cellsOf(part: Part, f: Format): Partial<Record<RowId, CountCell>> {
  const { total, people, problems, log } = part;
  const w = words.report;
  const mass = (grams: number): CountCell => ({ text: `${f.massValue(kgFromGrams(grams), 1)}\u00a0${f.massUnit}`, value: grams });
  const count = (n: number): CountCell => ({ text: f.number(n), value: n });
  const hours = (minutes: number): CountCell => ({ text: `${f.hoursShown(minutes)}\u00a0h`, value: minutes });
  const rates = 'rates' in part ? (part as Season).rates : null;
  return {
    fedWeighed: mass(total.fedWeighedG),
    fedEstimated: mass(total.fedEstimatedG),
    bedding: mass(total.beddingG),
    castings: mass(total.harvestedG),
    corrected: mass(total.castingsCorrectedG),
    volume: { text: f.litres(litresFromMillilitres(total.castingsMl)), value: total.castingsMl },
    yield: { text: yieldShown(part, f) },
    ...(rates === null ? {} : { perWeek: { text: f.massWhole(kgFromGrams(rates.fedPerWeekG)) } }),
    bins: count(log.binsKept),
    shifts: count(total.shifts),
    places: { text: w.places(f.number(total.places), f.number(total.placesTaken), f.number(total.placesCame)) },
    planned: hours(total.minutesPlanned),
    given: hours(total.minutes),
    adults: count(people.adults),
    young: people.young === null ? { text: w.some } : count(people.young),
    found: count(problems.found),
    solved: count(problems.solved),
    days: { text: problems.daysToSolveMedian === null ? w.none : f.days(problems.daysToSolveMedian) },
    longest: { text: problems.daysToSolveLongest === null ? w.none : f.days(problems.daysToSolveLongest) },
    noted: { text: w.of(f.number(log.binWeeksNoted), f.number(log.binWeeks)) },
  };
}
