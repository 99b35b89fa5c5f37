// Data: the words for what the model and people say of a bin.
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

const bands = {
  settled: 'settled',
  watch: 'watch',
  act: 'act',
  unknown: 'unknown',
} as const satisfies Record<Band, string>;

/** Those that are told at the bin; `every-caution.ts` has the rest (B26). */
export const cautions = {
  gloves: 'Wear gloves. Do not eat here. Wash your hands after.',
  'damp-not-dusty': 'If it is dusty, damp it first. Dust from compost carries germs. Wear a mask if your lungs or defences are weak.',
  lifting: 'A full tray is heavy. Lift it with someone, or take out half first.',
  leachate: 'What drips out is not a drink and not a spray for leaves. Pour it on flower beds, well thinned, or back on dry bedding.',
  'castings-on-food': 'On beds of food eaten raw: dig it in, wait, and wash what you pick.',
  'food-from-outside': 'Food from outside and animal products may need a permit. Ask before you bring any.',
  flooding: 'Add water slowly. A flooded bed drowns worms.',
  'no-poison': 'No poison and no sprays. Worms die of them first.',
} as const satisfies Record<Exclude<CautionId, 'pupils' | 'lime' | 'heating'>, string>;

const cautionVoices = {
  health: 'health departments and Cornell University, on compost dust',
  school: 'Cornell University, on worms in schools',
  lifting: 'the British work safety office, on lifting',
  organic: 'the US board for organic farming',
  keepers: 'what people who keep worms have found',
} as const satisfies Record<CautionVoice, string>;

const holds = {
  hot: 'It is too warm in the bed.',
  cold: 'It is too cold in the bed.',
  airless: 'Part of it is short of air.',
  sour: 'The bed is sour.',
  smell: 'Somebody noted a bad smell.',
  'food-in-hand': 'There is still plenty to eat.',
  'fed-lately': 'It has had its food for this week.',
  resting: 'This bin is resting.',
} as const satisfies Record<HoldReason, string>;

const limits = {
  ration: 'It is as much as its worms eat in a week, less what they had.',
  room: 'More would lie too thick for air to get in.',
  airless: 'With more, the food may run out of air within two weeks.',
  overfed: 'With more, food may pile up within two weeks.',
} as const satisfies Record<FeedLimit, string>;

const exposures = {
  indoors: 'indoors',
  shade: 'in shade',
  'part-sun': 'in part sun',
  'full-sun': 'in full sun',
} as const satisfies Record<Exposure, string>;

const leftovers = { none: 'none', little: 'little', half: 'half', most: 'most', all: 'all' } as const satisfies Record<Leftover, string>;

export const squeezes = {
  crumbles: 'crumbles',
  damp: 'damp',
  'one-two-drops': '1 or 2 drops',
  'few-drops': 'a few drops',
  trickle: 'a trickle',
} as const satisfies Record<Squeeze, string>;

export const smells = {
  earthy: 'like woods',
  sour: 'like vinegar',
  rotten: 'like bad eggs',
  ammonia: 'sharp, like wee',
} as const satisfies Record<Smell, string>;

export const worms = { none: 'none', few: 'few', some: 'some', many: 'many' } as const satisfies Record<WormSighting, string>;

const how = { weighed: 'weighed', container: 'by container', guessed: 'a guess' } as const satisfies Record<HowMeasured, string>;

const visitors = {
  'fruit-flies': 'fruit flies',
  'fungus-gnats': 'small dark gnats',
  'soldier-fly-larvae': 'soldier fly grubs',
  mites: 'mites',
  springtails: 'springtails',
  potworms: 'white potworms',
  ants: 'ants',
  slugs: 'slugs',
  centipedes: 'centipedes',
  flatworms: 'flatworms',
  rodents: 'mice or rats',
  other: 'something else',
} as const satisfies Record<Visitor, string>;

export const science = {
  bands,
  cautions: cautions as Record<keyof typeof cautions, string>,
  cautionVoices: cautionVoices as Record<CautionVoice, string>,
  holds: holds as Record<HoldReason, string>,
  limits: limits as Record<FeedLimit, string>,
  exposures: exposures as Record<Exposure, string>,
  leftovers: leftovers as Record<Leftover, string>,
  squeezes: squeezes as Record<Squeeze, string>,
  smells: smells as Record<Smell, string>,
  worms: worms as Record<WormSighting, string>,
  how: how as Record<HowMeasured, string>,
  visitors: visitors as Record<Visitor, string>,
  rulesFirst: 'Local rules and official advice come first.',
  cautionsFrom: (voices: string) => `Advice of: ${voices}.`,
} as const;
