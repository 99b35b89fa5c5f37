// Data: the words of what would happen if.
import type { WhatIfRepeat, WhatIfSignal } from '@middenry/domain';

/** How it is worked out, the equation, and where it is from. */
type Equation = readonly [how: string, equation: string, source: string];

const because = {
  airless: 'Food that lies thick and wet uses up air faster than air can creep in.',
  overfed: 'More food lies there than so many worms can eat in two weeks.',
  hungry: 'The worms eat what there is, and nothing more comes.',
  dry: 'Water leaves the bed as vapour, faster when it is warm.',
  wet: 'Wet food gives its water to the bed, and the gaps fill up.',
  hot: 'Warm air and fresh food that rots both warm the bed.',
  cold: 'The bed slowly takes on the cold of the air around it.',
  sour: 'Food that rots without air makes acids.',
  ammonia: 'Green food with little card gives off ammonia.',
} as const satisfies Record<WhatIfSignal, string>;

const equations = {
  airless: [
    'Air creeps in to a depth L. D says how easily it passes. C is the oxygen in the air, Q how fast food uses it. What lies deeper than L has none.',
    'L = √(2 · D · C / Q); airless share = 1 − L / thickness',
    'LaMotta 1976; D by Moldrup and others 1997, quoted from memory.',
  ],
  overfed: [
    'Soft food rots by a share k of what is left each day. Food in hand is what is left over what the worms eat in a day.',
    'left = put in · e^(−k · days); days in hand = left / daily meal',
    'Rates k and the daily meal are our estimates, between published rates.',
  ],
  hungry: [
    'Food in hand is what is left over what the worms eat in a day. Under one day, with the bedding nearly gone, they go hungry.',
    'days in hand = soft food left / daily meal',
    'The daily meal is our estimate.',
  ],
  dry: [
    'How much a bin dries depends on its size and kind. A wet top and a warm day dry it more.',
    'water lost = area · rate · e^(0.06 · (T − 20))',
    'The rise with warmth follows the vapour pressure of water. The rates are our estimates.',
  ],
  wet: [
    'The share of air is what neither water nor solids fill. Below a fifth, worms and microbes lack air.',
    'air = 1 − density · (water / 1000 + solids / 1600)',
    'Van Ginkel and others 1999, quoted from memory.',
  ],
  hot: [
    'Each gram of oxygen that rotting uses gives 14 kJ of heat. The bed loses heat through its walls.',
    'heat = 14 · oxygen used; loss = U · area · (bed − air)',
    'Haug 1993, quoted from memory. U is our estimate.',
  ],
  cold: [
    'Each day the bed comes closer to the air. A big bed takes longer.',
    'bed = air + (bed before − air) · e^(−time / constant)',
    'Heat loss through the walls is our estimate.',
  ],
  sour: [
    'Acids from rot without air pull the pH down. Microbes that have air eat them up again.',
    'pH = 7.1 − acids / dry mass',
    'All figures are our estimates.',
  ],
  ammonia: [
    'Carbon for each nitrogen in what rots today. Below 15, with warmth, nitrogen goes off as gas.',
    'C : N = carbon that rots / nitrogen that rots',
    'The mark of 15 is common practice.',
  ],
} as const satisfies Record<WhatIfSignal, Equation>;

export const whatIfWords = {
  whatIf: {
    title: 'What if?',
    heading: (code: string) => `What if, at ${code}?`,
    lead: 'Try it here first. Nothing happens in the bin. We look two weeks ahead.',
    link: 'What if? Try it out first',
    back: (code: string) => `Back to ${code}`,
    choose: 'Your choice',
    mass: 'Food each time',
    food: 'What kind',
    zones: 'Spread over',
    zonesUnit: (n: number) => (n === 1 ? 'zone' : 'zones'),
    again: 'How often',
    repeats: { once: 'once, tomorrow', weekly: 'every week', 'every-3-days': 'every three days' } as const satisfies Record<
      WhatIfRepeat,
      string
    >,
    card: 'Torn card with it',
    loosen: 'Loosen it first',
    out: 'Take old food out',
    water: 'Add water',
    warmer: 'Warmer than we expect, or colder',
    look: 'Show what comes',
    clear: 'Start over',
    says: {
      settled: (chance: string) => `Trouble is not likely: ${chance}.`,
      watch: (chance: string) => `Trouble may come: ${chance}.`,
      act: (chance: string) => `Trouble is likely: ${chance}.`,
      unknown: (chance: string) => `We cannot say: ${chance}.`,
    },
    without: (chance: string) => `With nothing done it is ${chance}.`,
    membersSaid: (n: number) => `We tried it on ${n} likely bins like this one.`,
    inDays: (n: number) => (n === 1 ? 'in 1 day' : `in ${n} days`),
    fanHelp: 'The line is the likely course. The shade holds eight cases of ten. Dots: nothing done. Dashes: where trouble begins.',
    nothingDone: 'nothing done',
    chances: 'What may come in two weeks',
    noChance: 'Hardly anything.',
    trouble: 'Trouble',
    picture: 'Ring: nothing done. Disc: your choice',
    numbers: 'nothing done, your choice',
    because,
    equation: 'How we work that out',
    equations,
    fault: 'We cannot work it out here now. The button below asks the server.',
    share: 'Share it',
    shareHelp: 'This link opens the same choice for anybody in your programme.',
    copy: 'Copy the link',
    copied: 'Copied.',
    plan: 'Make it the plan',
    planHelp: 'It goes among the duties of the next shift, with your amounts in its note.',
    planDo: 'Put it on the next shift',
    log: 'I am doing it now: log it',
    noPlan: 'There is nothing to plan in this choice.',
    line: (parts: string) => `${parts}.`,
    feedLine: (mass: string, food: string, zones: string) => `feed ${mass} of ${food} over ${zones}`,
    cardLine: (mass: string) => `put in ${mass} of torn card`,
    loosenLine: 'loosen it',
    waterLine: (water: string) => `add ${water} of water`,
    outLine: (share: string) => `take ${share} of the old food out`,
    planned: 'It is on the next shift now.',
  },
} as const;
