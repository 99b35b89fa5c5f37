// Data: what a coordinator may do with what is known of somebody else.
export const theirData = {
  fetch: 'What is known of them',
  erase: 'Erase',
  title: 'Erase somebody',
  heading: (name: string) => `Shall ${name} go from here?`,
  lead: 'Do this when they ask for it, or when the guardian or the school of a pupil asks. It cannot be undone.',
  first: 'Do they want a copy first?',
  firstText: 'It holds all that is known of them and nothing of anybody else. Hand it only to them, or to the guardian of a pupil.',
  going: [
    'their name and address, or class and picture card',
    'their way in, on all devices',
    'their places on shifts to come, messages and wishes',
    'photos in which they were named',
  ],
  staying: [
    'what they noted of bins, as noted by a former volunteer',
    'hours and weights in the totals of the season',
    'copies that were made before: they go within 90 days',
  ],
  submit: (name: string) => `Erase ${name}`,
  done: 'Erased. What they noted stays, without a name.',
  nobody: 'There is nobody here to erase.',
} as const;
