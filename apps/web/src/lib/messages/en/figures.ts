// Data: the words around numbers and days.
const NB = '\u00a0';

export const figures = {
  language: 'en',
  /** How numbers and dates are written, given what the programme has chosen. */
  locale: (ofProgramme: string) => (ofProgramme.startsWith('en') ? ofProgramme : 'en-GB'),
  days: (n: number, shown: string) => (n === 1 ? `1${NB}day` : `${shown}${NB}days`),
  hours: (n: number, shown: string) => `${shown}${NB}${n === 1 ? 'hour' : 'hours'}`,
  minutes: (n: number, shown: string) => `${shown}${NB}${n === 1 ? 'minute' : 'minutes'}`,
  litres: 'litres',
  quarts: 'quarts',
  gallons: 'gal',
  inches: 'in',
  squareFeet: `sq${NB}ft`,
  feet: 'ft',
  over: (value: string) => `over${NB}${value}`,
  under: (value: string) => `under${NB}${value}`,
  timeSpan: (start: string, end: string) => `${start} to ${end}`,
  today: 'today',
  tomorrow: 'tomorrow',
  yesterday: 'yesterday',
  on: (day: string) => `on ${day}`,
  ago: (days: string) => `${days} ago`,
  since: (day: string) => `since ${day}`,
} as const;
