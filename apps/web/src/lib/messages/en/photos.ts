// Data: a photo at the log form.
export const photos = {
  add: 'Add a photo',
  noPeople: 'Only the bin, no people.',
  busy: 'Making it small.',
  ready: 'The photo goes with this note.',
  what: 'What does it show?',
  kinds: { bin: 'The bin', visitor: 'A visitor' },
  alt: 'In words, for who cannot see it',
  remove: 'Leave it out',
  heic: 'This photo is in a form called HEIC, which this phone cannot open. Set the camera to JPEG, or send a screenshot of it.',
  unreadable: 'This photo cannot be opened. Take it again, or choose another one.',
  noStore: 'This browser keeps nothing, so a photo cannot wait here.',
} as const;
