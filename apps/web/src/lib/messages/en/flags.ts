// Data: the words of what is looked out for in every bin: why it happens, what it leads to, what to do, and from where on.
import type { SignalId, SignalOwner } from '@middenry/domain';
import type { Reading } from '../given.ts';

export interface FlagWords {
  readonly cause: string;
  readonly consequence: string;
  /** At most 80 characters. */
  readonly action: string;
  /** From where on it counts: every limit of the signal, by its name. */
  readonly from: (v: Reading) => readonly string[];
  /** Where it must come back to before it is over; `back` is the limit with the dead band taken off. */
  readonly until: (v: Reading) => string;
}

const each = {
  airless: {
    cause: 'Too much wet food in one place, packed down, or put in without bedding.',
    consequence: 'It rots without air: it smells, turns sour, and worms move away or die.',
    action: 'Take out what is slimy, loosen the zone and mix in dry bedding.',
    from: (v) => [
      `${v.percent('airlessFrac')} of a layer of food gets no air, or the air in the bed has less than ${v.percent('baseOxygenFrac')} oxygen.`,
      `We name a zone if ${v.mass('leastFoodKg')} of food or more is in it.`,
      `We call a bed packed below ${v.percent('packedPorosity')} air, and a feeding big above ${v.mass('bigFeedingKgM2')} on a square metre.`,
    ],
    until: (v) => `Over at ${v.percent('back')} of the layer.`,
  },
  overfed: {
    cause: 'Fed more, or more often, than this many worms eat at this warmth.',
    consequence: 'Food heats, runs out of air and draws flies. A smell comes next.',
    action: 'Do not feed until the food is nearly gone; take out what nobody eats.',
    from: (v) => [
      `There is food for more than ${v.days('foodInHandDays')}.`,
      `Or more than ${v.percent('leftFrac')} of a feeding is left after ${v.days('leftAfterDays')}, and food for ${v.days('leftMattersDays')}.`,
      `Less than ${v.mass('leastFoodKg')} does not count.`,
      `A bed below ${v.temp('coolC')} is taken to be that warm.`,
      `What somebody saw left over counts for ${v.days('seenLeftAfterDays')}.`,
    ],
    until: (v) => `Over at food for ${v.days('back')}.`,
  },
  hungry: {
    cause: 'No feeding for a while, and the bedding is nearly eaten too.',
    consequence: 'The worms shrink and stop laying. Some leave.',
    action: 'Feed a little, with bedding, and then as the advice says.',
    from: (v) => [
      `There is food for less than ${v.days('foodInHandDays')}.`,
      `And the bedding is down to ${v.number('beddingNearlyEaten', 1)} times the mark of “bedding low”.`,
    ],
    until: (v) => `Over at food for ${v.number('back', 1)} days.`,
  },
  dry: {
    cause: 'Sun, wind or a thin cover dried it faster than food wets it.',
    consequence: 'Worms breathe through a wet skin. They ball up, stop eating, then die.',
    action: 'Water with a rose, a little at a time, and cover with wet card.',
    from: (v) => [`Less than ${v.percent('moistureFracWb')} of the bed is water.`],
    until: (v) => `Over at ${v.percent('back')} water.`,
  },
  wet: {
    cause: 'Wet food without dry bedding, too much water, or no way for it to drain.',
    consequence: 'Wet parts run out of air and smell. The worms climb the walls.',
    action: 'Let it drain, fork in dry bedding, and hold wet food back.',
    from: (v) => [`More than ${v.percent('moistureFracWb')} of the bed is water, or less than ${v.percent('airFilledPorosity')} is air.`],
    until: (v) => `Over at ${v.percent('back')} water.`,
  },
  hot: {
    cause: 'A hot spell, sun on the lid, or a thick layer of food heating itself.',
    consequence: 'Worms stop eating, flee the heat, and die from about 35 °C.',
    action: 'Shade it, open the lid, wet the cover, and do not feed.',
    from: (v) => [`The bed reaches ${v.temp('bedPeakTempC')} at the warmest of the day.`],
    until: (v) => `Over at ${v.temp('back')}.`,
  },
  cold: {
    cause: 'Cold weather and too little cover for a bin of this size.',
    consequence: 'Food freezes and waits, then rots all at once. Frost kills adult worms.',
    action: 'Cover it thickly, wrap the walls or bring it in, and do not feed.',
    from: (v) => [`The bed is below ${v.temp('bedTempC')} in the mean of a day.`],
    until: (v) => `Over at ${v.temp('back')}.`,
  },
  sour: {
    cause: 'Much fruit, bread or citrus, or food fermenting without air.',
    consequence: 'Worms stop eating and leave. Below pH 5 they die.',
    action: 'Take out sour lumps, mix in bedding and ground eggshell; no fruit.',
    from: (v) => [`The bed is below pH ${v.number('ph', 1)}.`],
    until: (v) => `Over at pH ${v.number('back', 1)}.`,
  },
  ammonia: {
    cause: 'Food rich in nitrogen with too little bedding, in a warm bed.',
    consequence: 'Even a little ammonia in the bed kills worms.',
    action: 'Take out the rich food, mix in much dry bedding and let air in.',
    from: (v) => [
      `What rots holds less than ${v.number('cnRatio')} parts of carbon to one of nitrogen.`,
      `And the bed is above ${v.temp('bedTempC')} and above pH ${v.number('ph')}.`,
    ],
    until: (v) => `Over at ${v.number('back')} parts of carbon.`,
  },
  'bedding-low': {
    cause: 'Worms eat bedding too, and it was not topped up.',
    consequence: 'The bed packs down, holds too much water and runs short of air.',
    action: 'Add a layer of torn, damp card or leaves.',
    from: (v) => [`Less than ${v.percent('beddingFracOfSolids')} of what is solid is bedding.`],
    until: (v) => `Over at ${v.percent('back')} bedding.`,
  },
  'harvest-due': {
    cause: 'What goes in becomes castings, and they stay until somebody takes them.',
    consequence: 'Deep old castings pack down, and the worms stop working in them.',
    action: 'Take castings; leave a third of the bin and every lump with cocoons.',
    from: (v) => [
      `Castings fill ${v.percent('deep')} of the depth.`,
      `Or the last harvest was ${v.number('age')} days ago, and they fill ${v.percent('worth')}.`,
    ],
    until: (v) => `Over at ${v.percent('back')} of the depth.`,
  },
  unseen: {
    cause: 'No check has been written down for twice the usual time.',
    consequence: 'Trouble would go unnoticed, and what is said of the bin grows less sure.',
    action: 'Look in: what is left, the squeeze test and the smell tell most.',
    from: (v) => [`Nobody has looked for ${v.number('intervals')} times as long as is usual for this bin.`],
    until: () => 'Over once somebody has looked.',
  },
} as const satisfies Record<SignalId, FlagWords>;

const owners = {
  volunteer: 'whoever comes next',
  'site-lead': 'the site lead',
  coordinator: 'the coordinator',
} as const satisfies Record<SignalOwner, string>;

export const flagWords = {
  title: 'What the flags mean',
  heading: (n: number) => `We look out for ${n} things.`,
  lead: 'What somebody smells, measures or sees counts at once. The rest is worked out from what was noted.',
  cause: 'Why',
  consequence: 'Leads to',
  action: 'What to do',
  within: 'How soon',
  inDays: (days: string) => `in ${days}`,
  from: 'Said from',
  delay: 'First so for',
  owner: 'Who',
  roles: { alert: 'A flag on the board', duty: 'A thing to do, and a flag when late' },
  kindMarks: 'Each kind of bin has its own mark.',
  never: 'not looked for',
  owners: owners as Record<SignalOwner, string>,
  each: each as Record<SignalId, FlagWords>,
} as const;
