// Data: the words of what the board shows: which part of it, and what many bins share, in Spanish.
import type { SignalId } from '@middenry/domain';
import { NAMED_DAYS } from './figures.ts';

const spread: Record<SignalId, (n: number) => string> = {
  airless: (n) => `A ${n} composteras les falta aire`,
  overfed: (n) => `A ${n} composteras les dan más de lo que comen`,
  hungry: (n) => `A ${n} composteras les queda poca comida`,
  dry: (n) => `${n} composteras están muy secas`,
  wet: (n) => `${n} composteras están muy mojadas`,
  hot: (n) => `${n} composteras están muy calientes`,
  cold: (n) => `${n} composteras están muy frías`,
  sour: (n) => `${n} composteras se vuelven ácidas`,
  ammonia: (n) => `${n} composteras sueltan un gas fuerte`,
  'bedding-low': (n) => `A ${n} composteras les queda poco lecho`,
  'harvest-due': (n) => `${n} composteras están listas para cosechar`,
  unseen: (n) => `Nadie ha mirado ${n} composteras`,
};

export const sighting = {
  /** How long something has lasted, once days would take three digits. */
  spans: {
    months: (n: number) => `${n} meses`,
    years: (n: number) => (n === 1 ? 'un año' : `${n} años`),
  },
  select: {
    open: 'Ver solo algunas',
    site: 'Sitio',
    everySite: 'Todos los sitios',
    mine: 'Solo mis sitios',
    mySites: 'mis sitios',
    bands: 'En la lista, solo',
    show: 'Ver estas',
    only: (what: string) => `Solo ves: ${what}.`,
    all: 'Ver todas',
    none: 'Ahora no hay ninguna así.',
  },
  spread: {
    bins: (n: number) => `${n} composteras`,
    says: (signal: SignalId, n: number, holdsNow: boolean) => `${spread[signal](n)}${holdsNow ? '' : ', o pronto será así'}.`,
    since: (since: string) => `juntas ${since}`,
    by: (day: string) => `juntas para ${NAMED_DAYS.has(day) ? day : `el ${day}`}`,
    helps: (times: number, n: number) => (times === n ? 'Lo que más ayuda:' : `Lo que más ayuda en ${times} de ellas:`),
    why: 'Todas en un día, así que busca una sola causa.',
    each: 'Una por una',
  },
} as const;
