// Data: the words for what the model and people say of a bin, in Spanish.
import type {
  Band,
  CautionId,
  CautionVoice,
  Exposure,
  FeedLimit,
  HoldReason,
  HowMeasured,
  Leftover,
  Smell,
  Squeeze,
  Visitor,
  WormSighting,
} from '@middenry/domain';

export const zoneTail = (zone: number | string | null, before = ' en la') => (zone === null ? '' : `${before} zona ${zone}`);

const bands: Record<Band, string> = { settled: 'en calma', watch: 'vigila', act: 'actúa', unknown: 'sin datos' };

/** Those that are told at the bin; `every-caution.ts` has the rest (B26). */
export const cautions: Record<Exclude<CautionId, 'pupils' | 'lime' | 'heating'>, string> = {
  gloves: 'Ponte guantes. No comas aquí. Lávate las manos después.',
  'damp-not-dusty':
    'Si hay polvo, mójalo primero. El polvo del compost lleva gérmenes. Ponte mascarilla si tienes débiles los pulmones o las defensas.',
  lifting: 'Una bandeja llena pesa. Levántala con alguien o saca antes la mitad.',
  leachate: 'Lo que gotea no se bebe ni se echa en las hojas. Échalo en flores, con mucha agua, o en cama seca.',
  'castings-on-food': 'Donde crece comida que se come cruda: entiérralo, espera y lava lo que cojas.',
  'food-from-outside': 'La comida de fuera y la de origen animal pueden necesitar permiso. Pregunta antes de traerla.',
  flooding: 'Echa el agua despacio. En un lecho inundado las lombrices se ahogan.',
  'no-poison': 'Nada de venenos ni aerosoles. Las lombrices mueren primero.',
};

const cautionVoices: Record<CautionVoice, string> = {
  health: 'oficinas de salud y Universidad de Cornell, sobre el polvo del compost',
  school: 'Universidad de Cornell, sobre lombrices en la escuela',
  lifting: 'oficina británica de seguridad en el trabajo, sobre levantar peso',
  organic: 'junta de agricultura ecológica de EE. UU.',
  keepers: 'lo que ven quienes cuidan lombrices',
};

const holds: Record<HoldReason, string> = {
  hot: 'Hace demasiado calor en el lecho.',
  cold: 'Hace demasiado frío en el lecho.',
  airless: 'A una parte le falta aire.',
  sour: 'El lecho está agrio.',
  smell: 'Alguien anotó mal olor.',
  'food-in-hand': 'Aún hay mucho que comer.',
  'fed-lately': 'Ya tiene su comida de esta semana.',
  resting: 'Esta compostera descansa.',
};

const limits: Record<FeedLimit, string> = {
  ration: 'Es lo que comen sus lombrices en una semana, menos lo que ya tuvieron.',
  room: 'Más sería una capa tan gruesa que no entra el aire.',
  airless: 'Con más, la comida puede quedarse sin aire en dos semanas.',
  overfed: 'Con más, puede juntarse comida en dos semanas.',
};

const exposures: Record<Exposure, string> = {
  indoors: 'dentro',
  shade: 'a la sombra',
  'part-sun': 'con algo de sol',
  'full-sun': 'a pleno sol',
};

const leftovers: Record<Leftover, string> = { none: 'nada', little: 'poco', half: 'la mitad', most: 'casi todo', all: 'todo' };

export const squeezes: Record<Squeeze, string> = {
  crumbles: 'se desmigaja',
  damp: 'húmedo',
  'one-two-drops': '1 o 2 gotas',
  'few-drops': 'unas gotas',
  trickle: 'un chorrito',
};

export const smells: Record<Smell, string> = {
  earthy: 'a bosque',
  sour: 'a vinagre',
  rotten: 'a huevo podrido',
  ammonia: 'fuerte, a pis',
};

export const worms: Record<WormSighting, string> = { none: 'ninguna', few: 'pocas', some: 'algunas', many: 'muchas' };

const how: Record<HowMeasured, string> = { weighed: 'pesado', container: 'por recipiente', guessed: 'a ojo' };

const visitors: Record<Visitor, string> = {
  'fruit-flies': 'moscas de la fruta',
  'fungus-gnats': 'mosquitos oscuros',
  'soldier-fly-larvae': 'larvas de mosca soldado',
  mites: 'ácaros',
  springtails: 'colémbolos',
  potworms: 'gusanos blancos',
  ants: 'hormigas',
  slugs: 'babosas',
  centipedes: 'ciempiés',
  flatworms: 'gusanos planos',
  rodents: 'ratones o ratas',
  other: 'otra cosa',
};

export const science = {
  bands,
  cautions,
  cautionVoices,
  holds,
  limits,
  exposures,
  leftovers,
  squeezes,
  smells,
  worms,
  how,
  visitors,
  rulesFirst: 'Las normas locales y el consejo oficial van primero.',
  cautionsFrom: (voices: string) => `Lo aconsejan: ${voices}.`,
};
