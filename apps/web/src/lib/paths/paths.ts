/** Where the pages are. Bins are addressed by id; people never. */
export const paths = {
  board: '/',
  signIn: '/sign-in',
  signOut: '/sign-out',
  paper: '/paper',
  language: '/language',
  log: '/log',
  shifts: '/shifts',
  season: '/season',
  more: '/more',
  bin: (id: string) => `/bins/${id}`,
  binLog: (id: string, kind?: string) => `/bins/${id}/log${kind === undefined ? '' : `?kind=${kind}`}`,
  binLife: (id: string, kind: 'care' | 'worms', what: string) =>
    `/bins/${id}/log?kind=${kind}&${kind === 'care' ? 'action' : 'direction'}=${what}`,
  shift: (id: string) => `/shifts/${id}`,
  newShift: '/shifts/new',
  newWeekly: '/shifts/weekly',
  proposals: '/shifts/proposals',
  terms: '/shifts/terms',
  wishes: (id: string) => `/shifts/terms/${id}`,
  entry: (id: string) => `/entries/${id}`,
  newBin: '/bins/new',
  editBin: (id: string) => `/bins/${id}/edit`,
  programme: '/programme',
  people: '/people',
  me: '/me',
  messages: '/messages',
  reminders: '/messages/settings',
  secondStep: '/second-step',
  classes: '/classes',
  sites: '/sites',
  site: (id: string) => `/sites/${id}`,
  materials: '/materials',
  keep: '/keep',
  audit: '/audit',
  links: '/links',
  intake: '/intake',
  apiPage: '/api-page',
  setup: '/setup',
  enterCode: '/sign-in/code',
  enterPupil: '/sign-in/pupil',
} as const;

/** A path of our own to go back to; anything else becomes the board. */
export function ownPath(wanted: string | null | undefined): string {
  return wanted && /^\/(?![/\\])[^\s\\]*$/.test(wanted) ? wanted : '/';
}
