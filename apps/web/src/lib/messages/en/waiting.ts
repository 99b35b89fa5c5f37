// Data: the page of what waits on the phone.
export const waiting = {
  whichBin: 'Which bin are you at?',
  title: 'What waits',
  heading: (n: number) =>
    n === 0 ? 'Nothing waits. All is sent.' : n === 1 ? '1 note waits on this phone.' : `${n} notes wait on this phone.`,
  headingPhotos: (needYou: number, n: number) =>
    needYou > 0
      ? needYou === 1
        ? '1 photo could not be sent.'
        : `${needYou} photos could not be sent.`
      : n === 1
        ? '1 photo waits on this phone.'
        : `${n} photos wait on this phone.`,
  needYou: 'These need you',
  photosNeedYou: 'Photos that could not be sent',
  photoText: 'Their notes are safe: they do not wait for a photo.',
  photoOf: (code: string, when: string) => `Photo of ${code}, ${when}`,
  photoAlone: (when: string) => `Photo of ${when}`,
  photosWait: (n: number) =>
    n === 1 ? '1 photo waits too. It goes by itself, after its note.' : `${n} photos wait too. They go by themselves, after their notes.`,
  photoTooBig: { what: 'This photo is too big for the server.', next: 'Throw it away, and take another one.' },
  photoRefused: { what: 'The server does not take this photo.', next: 'Try again, or throw it away.' },
  photoDropSure: 'Throw this photo away? It is nowhere else.',
  waits: 'These are sent by themselves',
  sealed: (n: number) =>
    n === 1
      ? '1 note of somebody else waits here. It is sent when they sign in.'
      : `${n} notes of others wait here. They are sent when they sign in.`,
  kept: (when: string) => `Kept ${when}`,
  send: 'Send now',
  sending: 'Sending',
  away: 'The server does not answer. We keep trying.',
  signIn: 'You are not signed in any more. Sign in, and they are sent.',
  update: 'These pages are too old. Load them again, and the notes are sent.',
  reload: 'Load again',
  retry: 'Try again',
  edit: 'Change it',
  save: 'Save and send',
  copy: 'Copy the text',
  copied: 'Copied.',
  drop: 'Throw away',
  dropSure: 'Throw this note away? It is nowhere else.',
  dropYes: 'Yes, throw it away',
  dropNo: 'Keep it',
  when: 'When was it?',
  zone: 'Which zone?',
  mass: (unit: string) => `How much, in ${unit}?`,
  note: 'Note',
  zoneSaid: (n: number) => `zone ${n}`,
  noStore: 'This browser keeps nothing. Notes go straight to the server, so you need a network.',
  safe: 'Your browser has promised to keep them.',
  notSafe: 'Your browser may clear them if it runs out of room. Send them soon.',
  scripts: 'Turn on scripts to see what waits here.',
  carried: (when: string) => `What this phone carries is from ${when}.`,
  carriedNot: 'This phone carries nothing yet.',
  nextShift: 'Your next shift',
  wanted: 'That page needs a network. These work without one:',
  bins: 'Note something at a bin',
} as const;
