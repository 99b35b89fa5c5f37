import type { BodyOf } from '../api/calls.ts';

type Answers = BodyOf<'answerSheetImport'>;

/** Fields of the form: `column.date`, `name.bin.old tote`, `container.bucket`, and single answers by their own name. */
export const columnField = (field: string): string => `column.${field}`;
export const nameField = (field: string, name: string): string => `name.${field}.${name}`;
export const containerField = (name: string): string => `container.${name}`;

/** What was answered; a container is typed in kilograms or pounds and kept in grams. */
export function readAnswers(form: FormData, gramsPerUnit: number): Answers {
  const columns: Record<string, number | null> = {};
  const names: Record<string, Record<string, string>> = {};
  const containers: Record<string, number> = {};
  for (const [key, value] of form) {
    if (typeof value !== 'string') continue;
    const [kind, field = '', ...rest] = key.split('.');
    const given = value.trim();
    if (kind === 'column' && given !== '') columns[field] = given === 'none' ? null : Number(given);
    if (kind === 'name' && given !== '') names[field] = { ...names[field], [rest.join('.')]: given };
    if (kind === 'container') {
      const grams = Math.round(Number(given.replace(',', '.')) * gramsPerUnit);
      if (grams > 0) containers[[field, ...rest].join('.')] = grams;
    }
  }
  const one = (name: string) => String(form.get(name) ?? '') || null;
  return {
    columns,
    names,
    containers,
    dateOrder: one('dateOrder') as 'day-first' | null,
    shortYears: form.get('shortYears') === 'yes',
    mark: one('mark') as 'point' | null,
    unit: one('unit') as 'kg' | null,
    tempUnit: one('tempUnit') as 'C' | null,
  };
}
