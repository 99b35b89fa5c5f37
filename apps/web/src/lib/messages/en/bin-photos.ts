// Data: photos of a bin, on its page.
export const binPhotos = {
  heading: 'Photos',
  none: 'No photo yet. Add one when you note something.',
  of: (code: string, when: string) => `${code}, ${when}`,
  visitorOf: (code: string, when: string) => `Visitor in ${code}, ${when}`,
  /** It is hidden then, until a coordinator says who they are. */
  people: 'Hide: people are in it',
  peopleInThis: (what: string) => `Hide this photo, as people are in it: ${what}`,
  takeOff: 'Take off',
  takeOffThis: (what: string) => `Take this photo off: ${what}`,
} as const;
