/** Months and days of the week as people write them in English and Spanish, without accents. */
const MONTHS: readonly (readonly string[])[] = [
  ['january', 'jan', 'enero', 'ene'],
  ['february', 'feb', 'febrero'],
  ['march', 'mar', 'marzo'],
  ['april', 'apr', 'abril', 'abr'],
  ['may', 'mayo'],
  ['june', 'jun', 'junio'],
  ['july', 'jul', 'julio'],
  ['august', 'aug', 'agosto', 'ago'],
  ['september', 'sep', 'sept', 'septiembre', 'setiembre'],
  ['october', 'oct', 'octubre'],
  ['november', 'nov', 'noviembre'],
  ['december', 'dec', 'diciembre', 'dic'],
];

const MONTH_OF = new Map(MONTHS.flatMap((names, at) => names.map((name) => [name, at + 1] as const)));

/** 1 for January; undefined for any other word. */
export const monthNumber = (word: string): number | undefined => MONTH_OF.get(word);

const WEEKDAY =
  /^(mon|tue|tues|wed|thu|thur|thurs|fri|sat|sun|(mon|tues|wednes|thurs|fri|satur|sun)day|lun|mar|mie|jue|vie|sab|dom|lunes|martes|miercoles|jueves|viernes|sabado|domingo)$/;
export const isWeekday = (word: string): boolean => WEEKDAY.test(word);
