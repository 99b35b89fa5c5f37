interface Scale {
  readonly gross: string;
  readonly tare: string;
  readonly name: string;
  readonly net: string;
}

/** What the log form says at the scale, about last time and about what was noted a moment ago. */
export const noting = {
  asOf: (when: string) => `No network here. What you see is from ${when}.`,
  same: 'Same as last time',
  sameWords: (foods: string, zone: string, isNext: boolean) => `${foods}, zone ${zone}${isNext ? ', which is next' : ''}`,
  sameTaken: 'Filled in as last time. Now save it.',
  amountOf: (amount: string, food: string) => `${amount} of ${food}`,
  withBedding: (mass: string) => `${mass} of bedding`,
  goesWith: 'goes with it',
  justNow: (time: string, what: string) => `You noted at ${time}: ${what}.`,
  onPhone: 'Saved on this phone.',
  onPhoneText: 'It goes out by itself when there is a network.',
  draftBack: (when: string) => `This was typed ${when} and not saved yet.`,
  draftDrop: 'Start anew',
  fromAbove: 'Seen from above.',
  leftNow: (left: string) => `food left: ${left}`,
  back: 'Take off the last digit',
  tareQ: 'What was it in on the scale?',
  tareNone: 'nothing',
  empty: (mass: string) => `empty ${mass}`,
  lessTare: (x: Scale) => `${x.gross} less ${x.tare} for the empty ${x.name} is ${x.net}.`,
  noMoreThanTare: (name: string, tare: string) => `The empty ${name} alone weighs ${tare}. Type what the scale shows with something in it.`,
} as const;
