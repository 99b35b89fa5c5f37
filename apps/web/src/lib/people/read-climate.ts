import type { BodyOf } from '../api/calls.ts';

const MONTHS = 12;

/** The twelve minima and maxima as typed: all of them, none of them, or null when some are missing or no numbers. */
export function readClimate(form: FormData): Pick<BodyOf<'changeSite'>, 'minC' | 'maxC'> | null {
  const column = (name: string) =>
    Array.from({ length: MONTHS }, (_, i) =>
      String(form.get(`${name}-${i}`) ?? '')
        .trim()
        .replace(',', '.')
        .replace('−', '-'),
    );
  const [low, high] = [column('min'), column('max')];
  const all = [...low, ...high];
  if (all.every((typed) => typed === '')) return { minC: null, maxC: null };
  if (all.some((typed) => typed === '' || !Number.isFinite(Number(typed)))) return null;
  return { minC: low.map(Number), maxC: high.map(Number) };
}
