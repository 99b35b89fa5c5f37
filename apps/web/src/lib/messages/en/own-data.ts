// Data: what somebody takes along of their own, and what it says when they are erased.
export const ownDataWords = {
  ownData: {
    heading: 'What is known of you',
    text: 'Get it as one file, for a spreadsheet or a program. Nothing of anybody else is in it.',
    fetch: 'Get my data',
    erase: 'Erase me',
  },
  eraseMe: {
    title: 'Erase me',
    heading: 'Shall your name go from here?',
    lead: 'This cannot be undone. Nobody here can bring it back.',
    goes: 'What goes',
    going: [
      'your name and your address',
      'your way in, on all your devices',
      'your places on shifts to come; others can take them',
      'your messages, your wishes and your calendar',
      'photos in which you were named, and your consents to them',
    ],
    stays: 'What stays',
    staying: [
      'what you noted of bins, as noted by a former volunteer',
      'hours and weights in the totals of the season',
      'copies that were made before: they go within 90 days',
    ],
    unsent: 'Notes that still wait on a phone are no longer taken. Send them first.',
    who: 'Show that it is you',
    password: 'Your password, if you have one',
    code: 'A code',
    codeHint: 'With a password: the six digits of your second step. Without: a code from your coordinator or from your other device.',
    submit: 'Erase me for good',
    doneTitle: 'Erased',
    doneHeading: 'You are erased.',
    doneLead: 'Thank you for all you did for the worms. Notes that still wait on a phone stay there and are not taken.',
  },
} as const;
