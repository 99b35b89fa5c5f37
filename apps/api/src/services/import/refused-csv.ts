/** Rows with a fault as a file to mend them by (criteria G9). */
import type { ImportField, RowFaultReason, RowRead } from '@middenry/domain';
import type { Context } from '../../context.ts';
import { type Cell, csvText } from '../csv.ts';
import { openImport, rowOrRefuse } from './sheet-imports.ts';

/** What is wrong, and what to do about it. */
const WORDS: Readonly<Record<RowFaultReason, readonly [why: string, fix: string]>> = {
  'no-date': ['no day', 'write the day'],
  'not-a-date': ['not a day', 'write it as 2026-11-25'],
  'no-such-day': ['there is no such day', 'look up the day'],
  'no-year': ['no year', 'add the year'],
  'order-unknown': ['day or month first?', 'say which comes first'],
  'dates-mixed': ['some days have the day first, others the month', 'write all as 2026-11-25'],
  'short-year': ['a year of two figures', 'look at the years and say that they are right'],
  'in-future': ['still to come', 'look up the day'],
  'before-bin': ['before the bin was started', "look up the day, or change the bin's start"],
  'no-amount': ['no amount', 'write how much'],
  'not-a-number': ['not a number', 'write a number, such as 4.5'],
  'several-amounts': ['more than one amount', 'write one amount'],
  'not-above-zero': ['nothing, or less', 'write an amount above zero'],
  'mark-unknown': ['a comma or point that may divide or group', 'say which divides'],
  'unit-unknown': ['no unit that is known', 'write kg, g, lb or oz'],
  'too-many-hours': ['more than a day', 'look up the hours'],
  'bin-unknown': ['no such bin', 'choose the bin'],
  'bin-retired': ['the bin is retired', 'wake the bin first'],
  'material-unknown': ['no such material', 'choose one, or add it'],
  'person-unknown': ['nobody here has this name', 'choose the person, or nobody'],
  'person-missing': ['hours of nobody', 'write whose hours they are'],
  'site-unknown': ['no such site', 'choose the site'],
  'container-unknown': ['how much does it hold?', 'say what one weighs'],
  'too-heavy': ['more than 500 kg', 'look up the amount'],
  'zone-unknown': ['the bin has no such zone', 'look up the zone'],
  'word-unknown': ['a word that is not known', 'use a word of the log page'],
  'out-of-range': ['cannot be', 'look up the value'],
  'nothing-noted': ['nothing was found', 'write what was found, or delete the row'],
};

export function refusedCsv(call: Context, id: string): string {
  const row = rowOrRefuse(call, id);
  const rows = row.doneAt === null ? openImport(call, row).read.rows : (JSON.parse(row.refused) as { refused: RowRead[] }).refused;
  const head: Cell[] = ['row', 'column', 'value', 'reason', 'what_to_do'];
  const lines = rows.flatMap((one) => (one.state === 'refused' ? one.faults.map((fault) => line(one.row, fault)) : []));
  return csvText([head, ...lines], 'spreadsheet');
}

function line(row: number, fault: { readonly field: ImportField; readonly value: string; readonly reason: RowFaultReason }): Cell[] {
  const [why, fix] = WORDS[fault.reason];
  return [row, fault.field, fault.value, why, fix];
}
