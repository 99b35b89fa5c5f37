/**
 * What writes numbers and days in a language, kept once made: to make one costs a phone a hundred times what it costs
 * to use it, and a board asks some hundred times. There are few: one language and zone per reader, some ten shapes.
 */
const numbers = new Map<string, Intl.NumberFormat>();
const days = new Map<string, Intl.DateTimeFormat>();

export function numberMaker(locale: string, leastDigits: number, mostDigits: number): Intl.NumberFormat {
  const key = `${locale} ${leastDigits} ${mostDigits}`;
  const made = numbers.get(key) ?? new Intl.NumberFormat(locale, { minimumFractionDigits: leastDigits, maximumFractionDigits: mostDigits });
  numbers.set(key, made);
  return made;
}

export function dayMaker(locale: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${locale} ${JSON.stringify(options)}`;
  const made = days.get(key) ?? new Intl.DateTimeFormat(locale, options);
  days.set(key, made);
  return made;
}
