// Data: the words for what the model and people say of a bin.
import type { DutyKind, ReasonCode, RemedyId, SeenKind, SignalId, Smell, Squeeze, SurpriseCause } from '@middenry/domain';
import type { Format } from '../../format/format.ts';
import type { Reading } from '../values.ts';
import { smells, squeezes } from './science.ts';

/** What a sentence about a flag may lean on. */
export interface FlagFacts {
  readonly zone: number | null;
  readonly holdsNow: boolean;
  readonly by: string | null;
  readonly act: boolean;
}

export interface SignalWords {
  /** Two or three words for a tile. */
  readonly short: (x: FlagFacts) => string;
  /** One word for a list. */
  readonly name: string;
  /** The sentence with the answer in it. */
  readonly says: (x: FlagFacts) => string;
  /** What comes of it if nothing is done. */
  readonly else: string;
}

export interface RemedyFacts {
  readonly zone: number | null;
  readonly massKg: number | null;
}

const inZone = (zone: number | string | null) => (zone === null ? 'The food' : `Zone ${zone}`);

const zoneTail = (zone: number | string | null, before = ' in') => (zone === null ? '' : `${before} zone ${zone}`);

const likely = (x: FlagFacts, now: string, will: string, may: string) =>
  x.holdsNow ? now : x.by !== null ? `${will} by ${x.by}.` : `${may}.`;

/** Of a feeding that is still to come. */
const isAhead = (v: Reading, f: Format) => v.day !== null && v.day > f.settings.today;

const signals = {
  airless: {
    name: 'airless',
    short: (x) => (x.by !== null && !x.holdsNow ? `airless by ${x.by}` : 'short of air'),
    says: (x) =>
      likely(
        x,
        `${inZone(x.zone)} is short of air.`,
        `${inZone(x.zone)} is likely to run out of air`,
        `${inZone(x.zone)} may run short of air`,
      ),
    else: 'If nothing is done it will start to smell, and worms will leave that corner.',
  },
  overfed: {
    name: 'overfed',
    short: () => 'fed fast',
    says: (x) => likely(x, 'Food is going in faster than it is eaten.', 'Food is likely to pile up', 'Food may be piling up'),
    else: 'If more goes in, the food will heat up, pack down and smell.',
  },
  hungry: {
    name: 'hungry',
    short: () => 'short of food',
    says: (x) =>
      likely(x, 'The worms have little left to eat.', 'The worms are likely to run out of food', 'The worms may run out of food'),
    else: 'Without food the worms get smaller and lay fewer eggs.',
  },
  dry: {
    name: 'dry',
    short: (x) => (x.by !== null && !x.holdsNow ? `dry by ${x.by}` : 'too dry'),
    says: (x) => likely(x, 'The bed is too dry.', 'The bed is likely to dry out', 'The bed may get too dry'),
    else: 'In a dry bed worms stop eating and move away.',
  },
  wet: {
    name: 'wet',
    short: (x) => (x.holdsNow ? 'too wet' : 'getting wet'),
    says: (x) => likely(x, 'The bed is too wet.', 'The bed is likely to get too wet', 'The bed may get too wet'),
    else: 'A wet bed shuts the air out and starts to smell.',
  },
  hot: {
    name: 'hot',
    short: (x) => (x.by !== null && !x.holdsNow ? `hot by ${x.by}` : 'too warm'),
    says: (x) => likely(x, 'The bed is too warm for the worms.', 'The bed is likely to get too warm', 'The bed may get too warm'),
    else: 'Above about 30 °C worms leave or die.',
  },
  cold: {
    name: 'cold',
    short: (x) => (x.by !== null && !x.holdsNow ? `cold by ${x.by}` : 'very cold'),
    says: (x) => likely(x, 'The bed is so cold that worms hardly eat.', 'The bed is likely to get very cold', 'The bed may get very cold'),
    else: 'In the cold food lies uneaten. Frost can kill.',
  },
  sour: {
    name: 'sour',
    short: () => 'turning sour',
    says: (x) => likely(x, 'The bed is turning sour.', 'The bed is likely to turn sour', 'The bed may turn sour'),
    else: 'Worms leave a sour bed.',
  },
  ammonia: {
    name: 'ammonia',
    short: () => 'sharp smell',
    says: (x) =>
      likely(
        x,
        'It gives off a sharp gas, ammonia.',
        'It is likely to give off a sharp gas, ammonia,',
        'It may give off a sharp gas, ammonia',
      ),
    else: 'Even a little of this gas harms worms.',
  },
  'bedding-low': {
    name: 'bedding low',
    short: () => 'bedding low',
    says: (x) => likely(x, 'The bedding is nearly used up.', 'The bedding is likely to run out', 'The bedding is getting low'),
    else: 'Without bedding, food packs down and worms have nowhere to go.',
  },
  'harvest-due': {
    name: 'harvest due',
    short: () => 'ready to harvest',
    says: (x) => likely(x, 'Castings are ready to harvest.', 'Castings are likely to be ready', 'Castings may soon be ready'),
    else: 'When castings lie too deep, worms work less.',
  },
  unseen: {
    name: 'nobody has looked',
    short: () => 'not seen',
    says: () => 'We cannot say how this bin is.',
    else: 'Trouble starts between visits, and nobody would know.',
  },
} as const satisfies Record<SignalId, SignalWords>;

const reasons = {
  'layer-deep': (v, _f) =>
    `The food${zoneTail(v.zone)} lies ${v.depth('layerDepthM') ?? 'deep'} deep. Air gets about ${v.depth('airDepthM') ?? 'part of the way'} in.`,
  'fed-much': (v, f) =>
    isAhead(v, f)
      ? `${v.mass('massKg') ?? 'A lot'} is to go${zoneTail(v.zone, ' into')} ${f.on(v.day ?? '')}. It can take ${v.mass('capKg') ?? 'less'} then.`
      : `${v.mass('massKg') ?? 'A lot'} went${zoneTail(v.zone, ' into')}${v.day === null ? '' : ` on ${f.date(v.day)}`}. It could take ${v.mass('capKg') ?? 'less'} that day.`,
  'fed-without-bedding': (v, f) =>
    isAhead(v, f)
      ? `Fed as usual, no card or paper goes in ${f.on(v.day ?? '')}. Soft food packs down and shuts the air out.`
      : `No card or paper went in${v.day === null ? '' : ` on ${f.date(v.day)}`}. Soft food packs down and shuts the air out.`,
  'food-in-hand': (v, _f) =>
    `There is food for ${v.foodDays('days') ?? 'many days'}. More than ${v.days('limitDays') ?? 'two weeks'} is too much.`,
  'feeding-left': (v, _f) =>
    `${v.percent('leftFrac') ?? 'Much'} of the last feeding${zoneTail(v.zone)} is still there${v.days('days') === null ? '' : ` after ${v.days('days')}`}.`,
  'food-short': (v, _f) => `There is food for ${v.foodDays('days') ?? 'less than a day'}.`,
  'too-dry': (v, _f) => `We put the bed at ${v.percent('moistureFracWb') ?? 'too little'} water. It likes 70 to 80 %.`,
  'too-wet': (v, _f) => `We put the bed at ${v.percent('moistureFracWb') ?? 'too much'} water. It likes 70 to 80 %.`,
  packed: (v, _f) => `The bed has packed down. Only ${v.percent('airFilledPorosity') ?? 'little'} of it is air.`,
  'bed-hot': (v, _f) => `The bed reaches ${v.temp('tempC') ?? 'too much'}.`,
  'bed-cold': (v, _f) => `The bed is down to ${v.temp('tempC') ?? 'near freezing'}.`,
  'air-hot': (v, _f) => `The air reaches ${v.temp('tempC') ?? 'a high mark'} at this time of year.`,
  'air-cold': (v, _f) => `The air falls to ${v.temp('tempC') ?? 'a low mark'} at this time of year.`,
  smelled: (v, f) => `Somebody noted that it smells ${smellWord(v.text('smell'))}${v.day === null ? '' : `, on ${f.date(v.day)}`}.`,
  squeezed: (v, f) => `A squeeze gave ${squeezeWord(v.text('squeeze'))}${v.day === null ? '' : `, on ${f.date(v.day)}`}.`,
  'ph-low': (v, _f) => `It measures pH ${v.number('ph', 1) ?? 'low'}. Below 5.5 is too sour.`,
  'nitrogen-high': (v, _f) =>
    `There is too little card or paper for so much green food.${v.number('cnRatio') === null ? '' : ` Carbon to nitrogen is ${v.number('cnRatio')} to 1.`}`,
  'bedding-eaten': (v, _f) =>
    `Bedding is down to ${v.percent('beddingFrac') ?? 'little'} of the bed. It should be at least ${v.percent('minFrac') ?? 'more'}.`,
  'castings-deep': (v, _f) =>
    `${v.mass('castingsKg') === null ? 'Many' : `About ${v.mass('castingsKg')} of`} castings lie in it${v.depth('levelM') === null ? '' : `, ${v.depth('levelM')} deep`}.`,
  'bin-old': (v, _f) =>
    `${v.number('sinceHarvestDays') === null ? `It has run for ${v.days('ageDays') ?? 'long'}` : `The last harvest was ${v.days('sinceHarvestDays')} ago`}.`,
  'not-seen': (v, _f) =>
    `Nobody has noted a check for ${v.days('days') ?? 'a long time'}. It is usually seen every ${v.days('intervalDays') ?? 'week'}.`,
} as const satisfies Record<ReasonCode, (v: Reading, f: Format) => string>;

const remedies = {
  'hold-next-feed': () => 'Skip the next feed',
  'feed-half': (x, f) => (x.massKg === null ? 'Feed half next time' : `Feed half next time, ${f.mass(x.massKg)}`),
  'feed-now': (x, f) => `Feed ${x.massKg === null ? 'it' : f.mass(x.massKg)}${zoneTail(x.zone)}`,
  'take-out-uneaten': (x, f) => `Take ${x.massKg === null ? 'the uneaten food' : f.mass(x.massKg)} out${zoneTail(x.zone, ' of')}`,
  loosen: (x) => (x.zone === null ? 'Loosen the bed' : `Loosen zone ${x.zone}`),
  'mix-in-bedding': (x, f) =>
    `${x.zone === null ? 'Loosen it' : `Loosen zone ${x.zone}`}, mix in ${x.massKg === null ? 'dry card' : `${f.mass(x.massKg)} of dry card`}`,
  'add-bedding': (x, f) => `Add ${x.massKg === null ? 'torn card' : `${f.mass(x.massKg)} of torn card`}`,
  'add-water': (x, f) => `Add ${x.massKg === null ? 'water' : `${f.water(x.massKg)} of water`}`,
  drain: () => 'Open the drain and let it run off',
  shade: () => 'Move it into shade or cover it from the sun',
  insulate: () => 'Wrap it up against the cold',
  harvest: (x, f) => `Harvest ${x.massKg === null ? 'the castings' : `about ${f.mass(x.massKg)} of castings`}`,
  inoculate: (x, f) => `Add ${x.massKg === null ? '' : `${f.mass(x.massKg)} of `}finished compost`,
  'ground-eggshell': (x, f) => `Sprinkle ${x.massKg === null ? 'ground eggshell' : `${f.mass(x.massKg)} of ground eggshell`}`,
  check: (x) => (x.zone === null ? 'Squeeze a handful and note what you see' : `Squeeze a handful from zone ${x.zone}`),
} as const satisfies Record<RemedyId, (x: RemedyFacts, f: Format) => string>;

const duties = {
  feed: 'Feed',
  check: 'Check',
  loosen: 'Loosen',
  water: 'Water',
  bedding: 'Add bedding',
  inoculate: 'Add finished compost',
  harvest: 'Harvest',
  rest: 'Let it rest',
} as const satisfies Record<DutyKind, string>;

/** What was seen, as the subject of a sentence. */
const seen = {
  leftover: (zone) => `the food left${zone === null ? '' : ` in zone ${zone}`}`,
  squeeze: () => 'the squeeze',
  smell: () => 'the smell',
  temperature: () => 'the warmth of the bed',
  worms: () => 'the number of worms',
  ph: () => 'the pH',
  level: () => 'the height of the bed',
  harvest: () => 'the weight of the harvest',
} as const satisfies Record<SeenKind, (zone: number | null) => string>;

const surpriseCauses = {
  'feeding-not-logged': 'a feeding that nobody noted',
  larvae: 'soldier fly grubs at work',
  'wrong-unit': 'a wrong unit',
  'wrong-bin': 'a note meant for another bin',
  'mistaken-reading': 'a slip in the reading',
  'harvest-not-logged': 'a harvest that nobody noted',
  'worms-left': 'worms that have left',
} as const satisfies Record<SurpriseCause, string>;

function smellWord(smell: string | null): string {
  return smell !== null && smell in smells ? smells[smell as Smell] : 'bad';
}

function squeezeWord(squeeze: string | null): string {
  return squeeze !== null && squeeze in squeezes ? squeezes[squeeze as Squeeze] : 'more water than it likes';
}

/** Why a bin is as it is and what helps: said on the board and on the bin's page, not in the log form. */
export const reasoning = {
  trend: {
    airlessFrac: { name: 'Food without air', value: (v: string) => `${v} without air` },
    moistureFracWb: { name: 'Wetness', value: (v: string) => `${v} water` },
    foodInHandDays: { name: 'Days of food lying', value: (v: string) => `${v} of food` },
    bedTempC: { name: 'Bed warmth', value: (v: string) => `${v} in the bed` },
    castingsKgWb: { name: 'Castings in it', value: (v: string) => `${v} castings` },
    says: (name: string, value: string, way: string, place: string) => `${name}, 8 weeks: ${value}, ${way}, ${place}`,
    rising: 'rising',
    falling: 'falling',
    level: 'level',
    above: 'above the usual',
    below: 'below the usual',
    within: 'within the usual',
  },
  signals: signals as Record<SignalId, SignalWords>,
  reasons: reasons as Record<ReasonCode, (v: Reading, f: Format) => string>,
  remedies: remedies as Record<RemedyId, (x: RemedyFacts, f: Format) => string>,
  surpriseCauses: surpriseCauses as Record<SurpriseCause, string>,
  seen: seen as Record<SeenKind, (zone: number | null) => string>,
  duties: duties as Record<DutyKind, string>,
} as const;
