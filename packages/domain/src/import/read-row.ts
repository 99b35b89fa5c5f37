/** One row of a sheet, read by what is known of its columns. Every fault is told; a row with one is not taken. */
import { gramsFrom } from '../units/mass.ts';
import { celsiusFromF } from '../units/temperature.ts';
import { type AmountFault, readAmount } from './amounts.ts';
import { readDay } from './dates.ts';
import type { ImportField, ImportKind } from './fields.ts';
import { readHours } from './hours.ts';
import {
  type ImportAnswers,
  type ImportBin,
  type ImportItem,
  type ImportKnown,
  type NamedField,
  NOBODY,
  type RowFault,
  type RowFaultReason,
} from './import-types.ts';
import { readNumber } from './numbers.ts';
import { type CellOf, type ColumnFacts, degreesIn, rowUnit } from './read-columns.ts';
import { plainText, type SheetRow } from './sheet.ts';
import { readDestination, readSmell, readSqueeze, readWorms } from './value-words.ts';

export interface RowContext {
  readonly kind: ImportKind;
  readonly cell: CellOf;
  readonly facts: ColumnFacts;
  readonly answers: ImportAnswers;
  readonly known: ImportKnown;
}

const MOST_GRAMS = 500_000;
const MOST_NOTE = 2000;
const MOST_DESTINATION_NOTE = 200;
const COLDEST_C = -30;
const HOTTEST_C = 80;
const MOST_PH = 14;

/** What a row says, or what is wrong with it. */
export function readRow(context: RowContext, row: SheetRow): ImportItem | readonly RowFault[] {
  const reader = new RowReader(context, row);
  const item = reader.item();
  return reader.faults.length > 0 || item === null ? reader.faults : item;
}

class RowReader {
  readonly faults: RowFault[] = [];
  private readonly context: RowContext;
  private readonly row: SheetRow;

  constructor(context: RowContext, row: SheetRow) {
    this.context = context;
    this.row = row;
  }

  item(): ImportItem | null {
    const core = { ...this.when(), note: this.text('note').slice(0, MOST_NOTE), personId: this.person() };
    switch (this.context.kind) {
      case 'feedings':
        return this.feeding(core);
      case 'harvests':
        return this.harvest(core);
      case 'checks':
        return this.check(core);
      case 'hours':
        return this.hours(core);
      default:
        return this.context.kind satisfies never;
    }
  }

  private feeding(core: Core): ImportItem | null {
    const bin = this.bin(core.day);
    const materialId = this.named('material');
    const mass = this.mass();
    const zone = this.zone(bin);
    return bin === null || materialId === null || mass === null
      ? null
      : { kind: 'feedings', ...core, binId: bin.id, materialId, zone, ...mass };
  }

  private harvest(core: Core): ImportItem | null {
    const bin = this.bin(core.day);
    const mass = this.mass();
    const text = this.text('destination');
    const destination = readDestination(text);
    // What is no word of ours is kept as it stands.
    const destinationNote = destination === null ? text.slice(0, MOST_DESTINATION_NOTE) : '';
    return bin === null || mass === null
      ? null
      : { kind: 'harvests', ...core, binId: bin.id, ...mass, destination: destination ?? 'other', destinationNote };
  }

  private check(core: Core): ImportItem | null {
    const bin = this.bin(core.day);
    const found = {
      squeeze: this.word('squeeze', readSqueeze),
      smell: this.word('smell', readSmell),
      bedTempC: this.temperature(),
      ph: this.ph(),
      worms: this.word('worms', readWorms),
    };
    const isEmpty = core.note === '' && Object.values(found).every((value) => value === null);
    if (isEmpty && this.faults.length === 0) this.fault('note', 'nothing-noted');
    return bin === null ? null : { kind: 'checks', ...core, binId: bin.id, ...found };
  }

  private hours(core: Core): ImportItem | null {
    const { facts } = this.context;
    const minutes = readHours(this.cell('hours'), { isMinutes: facts.isMinutes, mark: facts.marks.hours?.used ?? null });
    if (typeof minutes === 'string') this.fault('hours', minutes);
    const siteId = this.named('site');
    if (core.personId === null) this.fault('person', 'person-missing');
    return typeof minutes === 'string' || siteId === null || core.personId === null
      ? null
      : { kind: 'hours', ...core, personId: core.personId, siteId, minutes };
  }

  private when(): { readonly day: string; readonly time: string | null } {
    const { facts, answers, known } = this.context;
    if (facts.orderFound === 'mixed' && this.text('date') !== '') this.fault('date', 'dates-mixed');
    const read = readDay(this.cell('date'), facts.order);
    if (typeof read === 'string') {
      if (facts.orderFound !== 'mixed' || read === 'no-date') this.fault('date', read);
      return { day: '', time: null };
    }
    if (read.isShortYear && !answers.shortYears) this.fault('date', 'short-year');
    if (read.day > known.today) this.fault('date', 'in-future');
    return { day: read.day, time: this.time() ?? read.time };
  }

  private time(): string | null {
    const [, hours, minutes] = /^(\d{1,2})[:.h](\d{2})/.exec(this.cell('time').time ?? this.text('time')) ?? [];
    return hours === undefined || Number(hours) > 23 || Number(minutes) > 59 ? null : `${hours.padStart(2, '0')}:${minutes}`;
  }

  private bin(day: string): ImportBin | null {
    const { known } = this.context;
    const id = this.named('bin');
    if (id === null) return null;
    const bin = known.bins.get(id) ?? null;
    if (bin === null) return this.fault('bin', 'bin-unknown');
    if (bin.isRetired) return this.fault('bin', 'bin-retired');
    if (day !== '' && day < bin.startedOn) this.fault('date', 'before-bin');
    return bin;
  }

  private person(): string | null {
    if (this.text('person') === '') return null;
    const id = this.named('person');
    return id === NOBODY ? null : id;
  }

  private named(field: NamedField): string | null {
    const { known, answers } = this.context;
    const name = plainText(this.text(field));
    const id = answers.names[field]?.[name] ?? (name === '' ? undefined : known.names[field].get(name)) ?? onlyOne(known, field, name);
    return id ?? this.fault(field, `${field}-unknown`);
  }

  private mass() {
    const { facts, answers } = this.context;
    const cell = this.cell('amount');
    const amount = readAmount(cell, facts.marks.amount?.used ?? null);
    if (typeof amount === 'string') return this.fault('amount', amount satisfies AmountFault);
    const unit = rowUnit(this.cell('unit'), facts);
    if (unit === 'strange' && amount.parts.some((part) => part.unit === null)) return this.fault('unit', 'unit-unknown');
    let grams = 0;
    for (const part of amount.parts) {
      if (part.container !== null) {
        const each = answers.containers[part.container];
        if (each === undefined) return this.fault('amount', 'container-unknown');
        grams += Math.round(part.value * each);
      } else {
        const used = part.unit ?? (unit === 'strange' ? null : unit);
        if (used === null) return this.fault('amount', 'unit-unknown');
        grams += gramsFrom(part.value, used);
      }
    }
    if (grams < 1) return this.fault('amount', 'not-above-zero');
    if (grams > MOST_GRAMS) return this.fault('amount', 'too-heavy');
    const [first] = amount.parts;
    const isCounted = first?.container !== null && first?.container !== undefined;
    const typed = amount.parts.length === 1 && first !== undefined ? first : null;
    return {
      grams,
      how: isCounted ? ('container' as const) : amount.isGuess ? ('guessed' as const) : ('weighed' as const),
      typedValue: typed?.value ?? null,
      typedUnit: typed === null ? null : isCounted ? ('container' as const) : (typed.unit ?? (unit === 'strange' ? null : unit)),
    };
  }

  private zone(bin: ImportBin | null): number {
    const text = this.text('zone').replace(/^\D+/, '');
    if (this.text('zone') === '') return 1;
    const zone = Number(text);
    if (!Number.isInteger(zone) || zone < 1 || (bin !== null && zone > bin.zones)) this.fault('zone', 'zone-unknown');
    return zone;
  }

  private word<T>(field: ImportField, read: (text: string) => T | null): T | null {
    const text = this.text(field);
    if (text === '') return null;
    return read(text) ?? this.fault(field, 'word-unknown');
  }

  private temperature(): number | null {
    const { facts } = this.context;
    const value = this.figure('temperature', degreesIn(this.text('temperature')).figures);
    if (value === null) return null;
    const unit = degreesIn(this.text('temperature')).unit ?? facts.tempUnit;
    if (unit === null) return this.fault('temperature', 'unit-unknown');
    const tempC = Math.round((unit === 'F' ? celsiusFromF(value) : value) * 10) / 10;
    return tempC < COLDEST_C || tempC > HOTTEST_C ? this.fault('temperature', 'out-of-range') : tempC;
  }

  private ph(): number | null {
    const value = this.figure('ph', this.text('ph'));
    return value !== null && (value < 0 || value > MOST_PH) ? this.fault('ph', 'out-of-range') : value;
  }

  private figure(field: 'temperature' | 'ph', text: string): number | null {
    const { number } = this.cell(field);
    if (number !== undefined) return number;
    if (text === '') return null;
    const value = readNumber(text, this.context.facts.marks[field]?.used ?? null);
    if (value === 'ask') return this.fault(field, 'mark-unknown');
    return value ?? this.fault(field, 'not-a-number');
  }

  private cell(field: ImportField) {
    return this.context.cell(this.row, field);
  }

  private text(field: ImportField): string {
    return this.cell(field).text.trim();
  }

  private fault(field: ImportField, reason: RowFaultReason): null {
    this.faults.push({ field, value: this.text(field), reason });
    return null;
  }
}

interface Core {
  readonly day: string;
  readonly time: string | null;
  readonly note: string;
  readonly personId: string | null;
}

/** Where a programme has one site only, a row that names none means that one. */
function onlyOne(known: ImportKnown, field: NamedField, name: string): string | undefined {
  if (field !== 'site' || name !== '') return undefined;
  const ids = new Set(known.names.site.values());
  return ids.size === 1 ? [...ids][0] : undefined;
}
