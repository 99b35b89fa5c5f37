/** Words that people write for what a check or a harvest can say, English and Spanish, without accents. */
import type { Smell, Squeeze, WormSighting } from '../bin/scenario.ts';
import { plainText } from './sheet.ts';

type Words<T extends string> = Readonly<Record<T, readonly string[]>>;

const SQUEEZE: Words<Squeeze> = {
  crumbles: ['crumbles', 'dry', 'very dry', 'too dry', 'seco', 'seca', 'muy seco', 'se deshace'],
  damp: ['damp', 'holds together', 'a bit dry', 'no drops', 'humedo', 'sin gotas'],
  'one-two-drops': [
    'one two drops',
    '1 2 drops',
    'one or two drops',
    'moist',
    'just right',
    'wrung out sponge',
    'una o dos gotas',
    '1 2 gotas',
  ],
  'few-drops': ['few drops', 'a few drops', 'wet', 'mojado', 'mojada', 'unas gotas', 'varias gotas'],
  trickle: ['trickle', 'trickles', 'very wet', 'too wet', 'soaked', 'soggy', 'dripping', 'muy mojado', 'empapado', 'chorrea', 'chorro'],
};
const SMELL: Words<Smell> = {
  earthy: ['earthy', 'earth', 'no smell', 'forest', 'tierra', 'a tierra', 'sin olor'],
  sour: ['sour', 'acid', 'vinegar', 'agrio', 'acido', 'vinagre'],
  rotten: ['rotten', 'rotten eggs', 'foul', 'stinks', 'podrido', 'huevo podrido', 'huevos podridos'],
  ammonia: ['ammonia', 'amoniaco'],
};
const WORMS: Words<WormSighting> = {
  none: ['none', 'no', 'no worms', '0', 'ninguna', 'nada', 'sin lombrices'],
  few: ['few', 'a few', 'pocas', 'algunas pocas'],
  some: ['some', 'medium', 'algunas', 'regular'],
  many: ['many', 'lots', 'a lot', 'loads', 'plenty', 'muchas', 'bastantes'],
};
export const IMPORT_DESTINATIONS = ['plots', 'beds', 'class', 'sale', 'given-away', 'stock', 'curing', 'other'] as const;
export type ImportDestination = (typeof IMPORT_DESTINATIONS)[number];
const DESTINATION: Words<ImportDestination> = {
  plots: ['plots', 'plot', 'members plots', 'parcelas', 'parcela'],
  beds: ['beds', 'bed', 'garden beds', 'raised beds', 'bancales', 'bancal', 'huerto'],
  class: ['class', 'classes', 'school', 'clase', 'escuela'],
  sale: ['sale', 'sold', 'market', 'venta', 'vendido'],
  'given-away': ['given away', 'gave away', 'donated', 'gift', 'regalado', 'donado', 'regalo'],
  stock: ['stock', 'store', 'stored', 'shed', 'almacen', 'guardado', 'reserva'],
  curing: ['curing', 'cure', 'madurando', 'curado'],
  other: ['other', 'otro', 'otros'],
};

const reader = <T extends string>(words: Words<T>): ((text: string) => T | null) => {
  const known = new Map(
    Object.entries<readonly string[]>(words).flatMap(([value, names]) => names.map((name) => [name, value as T] as const)),
  );
  for (const value of Object.keys(words) as T[]) known.set(plainText(value), value);
  return (text) => known.get(plainText(text)) ?? null;
};

export const readSqueeze = reader(SQUEEZE);
export const readSmell = reader(SMELL);
export const readWorms = reader(WORMS);
export const readDestination = reader(DESTINATION);
