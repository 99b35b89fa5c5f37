/** A day's row as doubles, a tenth of what it takes as text. */
import { type DayRow, ROW_QUANTITIES, type RowQuantity, type Spread } from '@middenry/domain';

const MARKS = ['p10', 'p50', 'p90'] as const;
const DOUBLE_BYTES = Float64Array.BYTES_PER_ELEMENT;

export function rowToBytes(row: DayRow): Buffer {
  const bytes = Buffer.alloc(ROW_QUANTITIES.length * MARKS.length * DOUBLE_BYTES);
  const values = ROW_QUANTITIES.flatMap((name) => MARKS.map((mark) => row[name][mark]));
  for (const [at, value] of values.entries()) bytes.writeDoubleLE(value, at * DOUBLE_BYTES);
  return bytes;
}

export function rowFromBytes(day: number, bytes: Buffer): DayRow {
  const row = { day } as { day: number } & Record<RowQuantity, Spread>;
  ROW_QUANTITIES.forEach((name, index) => {
    const [p10, p50, p90] = MARKS.map((_, mark) => bytes.readDoubleLE((index * MARKS.length + mark) * DOUBLE_BYTES));
    row[name] = { p10: p10 as number, p50: p50 as number, p90: p90 as number };
  });
  return row;
}
