/** The words of a printed report, by language. */
import type { Season, SeasonPdfLanguage } from '@middenry/contract';
import { en } from './words-en.ts';
import { es } from './words-es.ts';

type Destination = Season['destinations'][number]['destination'];
type Problem = Season['problems']['byKind'][number]['problem'];

export interface ReportWords {
  title(from: string, to: string): string;
  published(on: string): string;
  page(n: number, of: number): string;
  readonly summary: (
    fed: string,
    estimated: string,
    castings: string,
    hours: string,
    adults: number | null,
    young: number | null,
  ) => string;
  readonly sections: Readonly<Record<'figures' | 'materials' | 'castings' | 'problems' | 'months' | 'sites' | 'bins' | 'climate', string>>;
  readonly heads: Readonly<Record<Head, string>>;
  readonly rows: Readonly<Record<FigureRow, string>>;
  readonly destinations: Readonly<Record<Destination, string>>;
  readonly problems: Readonly<Record<Problem, string>>;
  readonly all: string;
  readonly none: string;
  readonly few: string;
  /** Of a report published before this was counted. */
  readonly notCounted: string;
  readonly noOneBin: string;
  of(part: string, whole: string): string;
  readonly chart: string;
  readonly bars: readonly [string, string, string];
  readonly noNames: string;
  readonly noClimate: string;
  /** Said where something holds a sign that our typefaces lack. */
  noSign(sign: string): string;
  readonly climate: ClimateWords;
  readonly stores: StoreWords;
  readonly expected: ExpectedWords;
  readonly hours: string;
  readonly litres: string;
  readonly gallons: string;
}
export interface StoreWords {
  readonly givenOut: string;
  readonly who: string;
  readonly fromBin: string;
  readonly fromStore: string;
  readonly together: string;
  readonly volume: string;
  readonly store: string;
  readonly rows: Readonly<Record<keyof NonNullable<Season['castings']>['store'], string>>;
}
export interface ExpectedWords {
  readonly caption: string;
  readonly harvests: string;
  readonly weighed: string;
  readonly expected: string;
  readonly low: string;
  readonly high: string;
  readonly meaning: string;
  left(harvests: number): string;
}
export interface ClimateWords {
  counted(scraps: string, low: string, high: string, percent: string): string;
  factors(name: string, edition: string, region: string, basis: string): string;
  perTonne(landfill: string, bins: string): string;
  range(mid: string, low: string, high: string): string;
  source(source: string, on: string): string;
  readonly caution: string;
  readonly gases: string;
  readonly low: string;
  readonly mid: string;
  readonly high: string;
  readonly rows: Readonly<Record<'landfillAvoidedG' | 'processG' | 'differenceG', string>>;
}
type Head =
  | 'what'
  | 'now'
  | 'before'
  | 'weighed'
  | 'estimated'
  | 'bedding'
  | 'castings'
  | 'hours'
  | 'perWeek'
  | 'yield'
  | 'share'
  | 'found'
  | 'solved'
  | 'median'
  | 'longest';
type FigureRow =
  | 'weighed'
  | 'estimated'
  | 'bedding'
  | 'castings'
  | 'corrected'
  | 'volume'
  | 'yield'
  | 'bins'
  | 'shifts'
  | 'places'
  | 'taken'
  | 'came'
  | 'planned'
  | 'given'
  | 'adults'
  | 'young'
  | 'found'
  | 'solved'
  | 'noted';

export const REPORT_WORDS: Readonly<Record<SeasonPdfLanguage, ReportWords>> = { en, es };
