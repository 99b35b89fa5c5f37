/** What the log form asks of a harvest beside its weight. */
export const harvest = {
  another: 'Another bucket',
  onList: 'Weighed already',
  bucket: (mass: string, at: number) => `bucket ${at}: ${mass}`,
  together: (mass: string) => `Together ${mass}.`,
  more: 'How wet, sieved, when ready',
  squeezeQ: 'Squeeze a handful. What comes out?',
  notNoted: 'not tried',
  screened: 'It was sieved',
  readyOn: 'Ready on which day?',
  readyHint: 'For what is set aside to cure. Left empty: in three weeks.',
  oven: 'Or dried in the oven, in grams',
  dish: 'The empty dish',
  wet: 'The dish with wet castings',
  dry: 'The dish with dry castings',
  needOven: 'Type all three weights. Dry is more than the dish and no more than wet.',
} as const;
