// Data: the words around numbers and days, in Spanish.
const NB = '\u00a0';
/** Days that stand without an article. */
export const NAMED_DAYS = new Set(['hoy', 'mañana', 'ayer']);
export const byDay = (day: string) => (NAMED_DAYS.has(day) ? day : `el ${day}`);

export const figures = {
  language: 'es',
  /** The decimal mark follows the place: a comma in Europe, a point in the United States. */
  locale: (ofProgramme: string) => (ofProgramme.startsWith('es') ? ofProgramme : ofProgramme === 'en-US' ? 'es-US' : 'es-ES'),
  days: (n: number, shown: string) => (n === 1 ? `1${NB}día` : `${shown}${NB}días`),
  hours: (n: number, shown: string) => `${shown}${NB}${n === 1 ? 'hora' : 'horas'}`,
  minutes: (n: number, shown: string) => `${shown}${NB}${n === 1 ? 'minuto' : 'minutos'}`,
  litres: 'litros',
  quarts: 'cuartos',
  gallons: 'gal',
  inches: 'pulg',
  squareFeet: 'pies²',
  feet: 'pies',
  over: (value: string) => `más${NB}de${NB}${value}`,
  under: (value: string) => `menos${NB}de${NB}${value}`,
  timeSpan: (start: string, end: string) => `${start} a ${end}`,
  today: 'hoy',
  tomorrow: 'mañana',
  yesterday: 'ayer',
  on: (day: string) => `el ${day}`,
  ago: (days: string) => `hace ${days}`,
  since: (day: string) => (NAMED_DAYS.has(day) ? `desde ${day}` : `desde el ${day}`),
};
