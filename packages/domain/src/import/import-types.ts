/** What importing knows, asks and gives. */
import type { Smell, Squeeze, WormSighting } from '../bin/scenario.ts';
import type { MassUnit } from '../units/mass.ts';
import type { AmountFault } from './amounts.ts';
import type { DateFault, DateOrder } from './dates.ts';
import type { Columns, ImportField } from './fields.ts';
import type { HoursFault } from './hours.ts';
import type { DecimalMark } from './numbers.ts';
import type { ImportDestination } from './value-words.ts';

export const NAMED_FIELDS = ['bin', 'material', 'person', 'site'] as const;
export type NamedField = (typeof NAMED_FIELDS)[number];
/** Answer for a person whom nobody here is: the row is taken without a name. */
export const NOBODY = 'nobody';

/** What somebody answered; the same answers are offered for the next file. */
export interface ImportAnswers {
  /** Columns chosen by hand; null: this field is in no column. */
  readonly columns: Readonly<Partial<Record<ImportField, number | null>>>;
  readonly dateOrder: DateOrder | null;
  readonly shortYears: boolean;
  readonly mark: DecimalMark | null;
  readonly unit: MassUnit | null;
  readonly tempUnit: 'C' | 'F' | null;
  /** Ids by plain name; the name is empty where a cell is. */
  readonly names: Readonly<Partial<Record<NamedField, Readonly<Record<string, string>>>>>;
  /** Grams of what a container holds, by its plain name. */
  readonly containers: Readonly<Record<string, number>>;
}

export const NO_ANSWERS: ImportAnswers = {
  columns: {},
  dateOrder: null,
  shortYears: false,
  mark: null,
  unit: null,
  tempUnit: null,
  names: {},
  containers: {},
};

export interface ImportBin {
  readonly id: string;
  readonly startedOn: string;
  readonly zones: number;
  readonly isRetired: boolean;
}

/** What the programme has: bins by id, and ids by plain name. A name that two have leads to none of them. */
export interface ImportKnown {
  readonly bins: ReadonlyMap<string, ImportBin>;
  readonly names: Readonly<Record<NamedField, ReadonlyMap<string, string>>>;
  readonly today: string;
}

export type RowFaultReason =
  | DateFault
  | AmountFault
  | HoursFault
  | 'dates-mixed'
  | 'short-year'
  | 'in-future'
  | 'before-bin'
  | 'bin-unknown'
  | 'bin-retired'
  | 'material-unknown'
  | 'person-unknown'
  | 'person-missing'
  | 'site-unknown'
  | 'container-unknown'
  | 'too-heavy'
  | 'zone-unknown'
  | 'word-unknown'
  | 'out-of-range'
  | 'nothing-noted';

export interface RowFault {
  readonly field: ImportField;
  readonly value: string;
  readonly reason: RowFaultReason;
}

interface ItemCore {
  readonly day: string;
  readonly time: string | null;
  readonly note: string;
  readonly personId: string | null;
}

interface ItemMass {
  readonly binId: string;
  readonly grams: number;
  readonly how: 'weighed' | 'container' | 'guessed';
  readonly typedValue: number | null;
  readonly typedUnit: MassUnit | 'container' | null;
}

export type FeedingItem = ItemCore & ItemMass & { readonly kind: 'feedings'; readonly materialId: string; readonly zone: number };
export type HarvestItem = ItemCore &
  ItemMass & { readonly kind: 'harvests'; readonly destination: ImportDestination; readonly destinationNote: string };
export type CheckItem = ItemCore & {
  readonly kind: 'checks';
  readonly binId: string;
  readonly squeeze: Squeeze | null;
  readonly smell: Smell | null;
  readonly bedTempC: number | null;
  readonly ph: number | null;
  readonly worms: WormSighting | null;
};
export type HoursItem = ItemCore & { readonly kind: 'hours'; readonly personId: string; readonly siteId: string; readonly minutes: number };
export type ImportItem = FeedingItem | HarvestItem | CheckItem | HoursItem;

export type RowRead =
  | { readonly row: number; readonly state: 'skipped' }
  | { readonly row: number; readonly state: 'ready'; readonly item: ImportItem }
  | { readonly row: number; readonly state: 'refused'; readonly faults: readonly RowFault[] };

/** What only a person can say. Until it is said, the rows that hang on it are refused. */
export type ImportQuestion =
  | { readonly ask: 'column'; readonly field: ImportField }
  | {
      readonly ask: 'date-order';
      readonly examples: readonly { readonly text: string; readonly dayFirst: string; readonly monthFirst: string }[];
    }
  | { readonly ask: 'short-years'; readonly examples: readonly { readonly text: string; readonly day: string }[] }
  | { readonly ask: 'mark'; readonly examples: readonly string[] }
  | { readonly ask: 'unit' }
  | { readonly ask: 'temp-unit'; readonly examples: readonly string[] }
  | { readonly ask: 'name'; readonly field: NamedField; readonly name: string; readonly shown: string; readonly rows: number }
  | { readonly ask: 'container'; readonly name: string; readonly rows: number };

export interface SheetRead {
  /** Row of the headings, counted from 1. */
  readonly headingRow: number;
  readonly headings: readonly string[];
  readonly columns: Columns;
  readonly questions: readonly ImportQuestion[];
  readonly rows: readonly RowRead[];
}
