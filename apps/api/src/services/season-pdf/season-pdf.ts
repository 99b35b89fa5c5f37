/** The season as a PDF that a screen reader can read: tagged, with a title and a language, every figure exact to the gram as shown. */
import type { KeptSeason, SeasonPart, SeasonPdfLanguage, SeasonTexts } from '@middenry/contract';
import {
  GRAMS_PER_KG,
  GRAMS_PER_LB,
  LITRES_PER_US_GALLON,
  MILLILITRES_PER_LITRE,
  MINUTES_PER_HOUR,
  shareKnown,
  sumKnown,
} from '@middenry/domain';
import { NOT_ONE_BIN } from '../season.ts';
import { castingsPart, hasCastings } from './castings-part.ts';
import { climatePart } from './climate-part.ts';
import { NO_SIGN } from './faces.ts';
import { newPaper, type Paper } from './paper.ts';
import { REPORT_WORDS, type ReportWords } from './words.ts';

export interface ReportAsked {
  readonly season: KeptSeason;
  readonly texts: SeasonTexts;
  /** The programme or the site. */
  readonly where: string;
  readonly language: SeasonPdfLanguage;
  readonly units: 'metric' | 'us';
  /** How English numbers and days are written. */
  readonly locale: string;
  readonly madeAt: Date;
  /** Of a published report: its name and the day. */
  readonly published?: { readonly name: string; readonly on: string };
}

type Row = KeptSeason['bySite'][number];
type Figures = KeptSeason['total'];
export type Show = ReturnType<typeof showIn>;

export async function seasonPdf(asked: ReportAsked): Promise<Buffer> {
  const { season, texts, language, published } = asked;
  const w = REPORT_WORDS[language];
  const show = showIn(asked, w);
  const title = w.title(show.day(season.from), show.day(season.to));
  const paper = await newPaper({ title: published ? `${published.name}: ${title}` : title, language, madeAt: asked.madeAt });
  const say = (part: SeasonPart) => {
    for (const text of (texts[part] ?? '').split(/\n\s*\n/)) if (text.trim() !== '') paper.paragraph(text.trim());
  };
  paper.heading('H1', published ? published.name : title);
  paper.paragraph(published ? `${title}. ${asked.where}. ${w.published(show.day(published.on))}` : `${asked.where}.`);
  say('opening');
  paper.paragraph(summaryOf(season, show, w));
  const section = (part: keyof ReportWords['sections'], draw: () => void) => {
    paper.heading('H2', w.sections[part]);
    say(part);
    draw();
  };
  section('figures', () => figuresTable(paper, season, show, w));
  if (season.byMaterial.length > 0) section('materials', () => materialsTable(paper, season, show, w));
  if (hasCastings(season)) section('castings', () => castingsPart(paper, season, show, w));
  section('problems', () => problemsTable(paper, season, show, w));
  section('months', () => {
    if (season.byMonth.length > 0) paper.bars(barsOf(season, show, w));
    groupTable(paper, 'months', season.byMonth, season, show, w);
  });
  section('sites', () => groupTable(paper, 'sites', season.bySite, season, show, w));
  section('bins', () => groupTable(paper, 'bins', season.byBin, season, show, w));
  const { climate } = season;
  if (climate !== null) section('climate', () => climatePart(paper, climate, show, w));
  paper.paragraph(climate === null ? `${w.noNames} ${w.noClimate}` : w.noNames);
  if (paper.lacks()) paper.paragraph(w.noSign(NO_SIGN));
  return paper.finish((page, pages) => `${title}. ${w.page(page, pages)}`);
}

/** Three places of a kilogram or pound tell whole grams apart, so that a printed column adds up as the others do. */
function showIn({ language, locale, units }: ReportAsked, w: ReportWords) {
  const written = language === 'en' ? locale : language;
  const number = (value: number, places = 0) =>
    value.toLocaleString(written, { minimumFractionDigits: places, maximumFractionDigits: places });
  const massUnit = units === 'us' ? 'lb' : 'kg';
  const massBare = (grams: number) => grams / (units === 'us' ? GRAMS_PER_LB : GRAMS_PER_KG);
  /** What an older report lacks is said so, and never shown as nothing. */
  const known = (show: (value: number) => string) => (value: number | null) => (value === null ? w.notCounted : show(value));
  const mass = known((grams) => number(massBare(grams), 3));
  const litres = (millilitres: number) => millilitres / MILLILITRES_PER_LITRE;
  const date = (day: string, how: Intl.DateTimeFormatOptions) =>
    new Intl.DateTimeFormat(written, { ...how, timeZone: 'UTC' }).format(new Date(`${day}T00:00:00Z`));
  return {
    number,
    count: known((value) => number(value)),
    mass,
    massUnit,
    massBare,
    /** No better than it is known. */
    twoDigits: (value: number) => value.toLocaleString(written, { maximumSignificantDigits: 2 }),
    factor: (value: number) => value.toLocaleString(written, { maximumFractionDigits: 2 }),
    massAnd: known((grams) => `${mass(grams)} ${massUnit}`),
    percent: (share: number | null) => (share === null ? w.none : `${number(share * 100)} %`),
    /** Of whole percents. */
    ofHundred: known((percent) => `${percent} %`),
    volume: known((ml) =>
      units === 'us' ? `${number(litres(ml) / LITRES_PER_US_GALLON, 3)} ${w.gallons}` : `${number(litres(ml), 3)} ${w.litres}`,
    ),
    time: known((minutes) => number(minutes / MINUTES_PER_HOUR, 2)),
    timeAnd: known((minutes) => `${number(minutes / MINUTES_PER_HOUR, 2)} ${w.hours}`),
    days: (days: number | null | undefined) =>
      days === null || days === undefined ? w.none : number(days, Number.isInteger(days) ? 0 : 1),
    day: (day: string) => date(day, { day: 'numeric', month: 'long', year: 'numeric' }),
    month: (key: string) => date(`${key}-01`, { month: 'short', year: 'numeric' }),
  };
}

function summaryOf({ total, people }: KeptSeason, show: Show, w: ReportWords): string {
  const fed = show.massAnd(sumKnown(total.fedWeighedG, total.fedEstimatedG));
  const [estimated, castings] = [show.massAnd(total.fedEstimatedG), show.massAnd(total.harvestedG)];
  return w.summary(fed, estimated, castings, show.timeAnd(total.minutes), people.adults, people.young);
}

function figuresTable(paper: Paper, season: KeptSeason, show: Show, w: ReportWords): void {
  const both = (of: (part: KeptSeason | KeptSeason['before']) => string) => [of(season), of(season.before)];
  const total = (of: (figures: Figures) => string) => both((part) => of(part.total));
  const inG = (x: Figures) => sumKnown(x.fedWeighedG, x.fedEstimatedG, x.beddingG);
  const cells: Readonly<Record<keyof ReportWords['rows'], readonly string[]>> = {
    weighed: total((x) => show.massAnd(x.fedWeighedG)),
    estimated: total((x) => show.massAnd(x.fedEstimatedG)),
    bedding: total((x) => show.massAnd(x.beddingG)),
    castings: total((x) => show.massAnd(x.harvestedG)),
    corrected: total((x) => show.massAnd(x.castingsCorrectedG)),
    volume: total((x) => show.volume(x.castingsMl)),
    yield: total((x) => (inG(x) === null || x.harvestedG === null ? w.notCounted : show.percent(shareKnown(x.harvestedG, inG(x))))),
    bins: both((part) => show.count(part.log.binsKept)),
    shifts: total((x) => show.count(x.shifts)),
    places: total((x) => show.count(x.places)),
    taken: total((x) => show.count(x.placesTaken)),
    came: total((x) => show.count(x.placesCame)),
    planned: total((x) => show.timeAnd(x.minutesPlanned)),
    given: total((x) => show.timeAnd(x.minutes)),
    adults: both((part) => show.count(part.people.adults)),
    young: both((part) => (part.people.young === null ? w.few : show.count(part.people.young))),
    found: both((part) => show.count(part.problems.found)),
    solved: both((part) => show.count(part.problems.solved)),
    noted: both((part) => w.of(show.count(part.log.binWeeksNoted), show.count(part.log.binWeeks))),
  };
  const rows = (Object.keys(w.rows) as (keyof typeof cells)[]).map((id) => [w.rows[id], ...cells[id]]);
  paper.table({ heads: [w.heads.what, w.heads.now, w.heads.before], rows, summed: false });
}

function materialsTable(paper: Paper, { byMaterial }: KeptSeason, show: Show, w: ReportWords): void {
  const kinds = [w.heads.weighed, w.heads.estimated, w.heads.bedding, w.heads.perWeek].map((head) => `${head}, ${show.massUnit}`);
  const rows = byMaterial.map((row) => [
    row.label,
    ...[row.fedWeighedG, row.fedEstimatedG, row.beddingG, row.perWeekG].map(show.mass),
    show.ofHundred(row.percent),
  ]);
  paper.table({ heads: [w.heads.what, ...kinds, w.heads.share], rows, summed: false });
}

function problemsTable(paper: Paper, { problems }: KeptSeason, show: Show, w: ReportWords): void {
  const rows = [...problems.byKind.map((row) => [w.problems[row.problem], row] as const), [w.all, problems] as const].map(([name, row]) => [
    ...[name, show.count(row.found), show.count(row.solved)],
    ...[row.daysToSolveMedian, row.daysToSolveLongest].map(show.days),
  ]);
  const heads = [w.heads.what, w.heads.found, w.heads.solved, w.heads.median, w.heads.longest];
  paper.table({ heads, rows, summed: true });
}

const barsOf = ({ byMonth }: KeptSeason, show: Show, w: ReportWords) => ({
  says: w.chart,
  names: w.bars,
  groups: byMonth.map(({ key, figures: x }) => ({
    name: show.month(key),
    // What was not counted has no bar; the table beneath says so.
    values: [x.fedWeighedG, x.fedEstimatedG, x.harvestedG].map((grams) => grams ?? 0),
  })),
});

function groupTable(
  paper: Paper,
  part: 'months' | 'sites' | 'bins',
  rows: readonly Row[],
  season: KeptSeason,
  show: Show,
  w: ReportWords,
): void {
  const nameOf = (row: Row) => (row.key === NOT_ONE_BIN.key ? w.noOneBin : part === 'months' ? show.month(row.key) : row.label);
  const cells = ({ figures: x, rates }: { figures: Figures; rates: Row['rates'] }) => [
    ...[x.fedWeighedG, x.fedEstimatedG, x.harvestedG].map(show.mass),
    ...[show.time(x.minutes), show.mass(rates.fedPerWeekG), show.percent(rates.yieldFrac)],
  ];
  const { weighed, estimated, castings, hours, perWeek, yield: yielded } = w.heads;
  const inUnit = (head: string) => `${head}, ${show.massUnit}`;
  const heads = [w.heads.what, inUnit(weighed), inUnit(estimated), inUnit(castings), hours, inUnit(perWeek), yielded];
  const all = [w.all, ...cells({ figures: season.total, rates: season.rates })];
  paper.table({ heads, rows: [...rows.map((row) => [nameOf(row), ...cells(row)]), all], summed: true });
}
