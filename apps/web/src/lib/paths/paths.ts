/** Where the pages are. Bins are addressed by id; people never. */
export const paths = {
  board: '/',
  wall: '/wall',
  signIn: '/sign-in',
  signOut: '/sign-out',
  paper: '/paper',
  language: '/language',
  log: '/log',
  waiting: '/waiting',
  find: '/find',
  findBy: (code: string) => `/find?code=${encodeURIComponent(code)}`,
  byCode: (code: string) => `/b/${code}`,
  labels: '/bins/labels',
  shifts: '/shifts',
  season: '/season',
  seasonOf: ({ from, to, siteId }: { readonly from: string; readonly to: string; readonly siteId: string | null }) =>
    `/season?from=${from}&to=${to}${siteId === null ? '' : `&siteId=${siteId}`}`,
  keptSeason: (id: string) => `/season/named/${id}`,
  climate: '/season/climate',
  publishedSeason: (id: string) => `/season/published/${id}`,
  more: '/more',
  bin: (id: string) => `/bins/${id}`,
  binLog: (id: string, kind?: string) => `/bins/${id}/log${kind === undefined ? '' : `?kind=${kind}`}`,
  madeUp: '/what-if',
  binCard: (id: string) => `/bins/${id}/card`,
  whatIf: (id: string) => `/bins/${id}/what-if`,
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
  eraseMe: '/me/erase',
  erased: '/erased',
  privacy: '/privacy',
  eraseOther: (person: string) => `/people/erase?person=${person}`,
  dataOf: (person: string) => `/api/people/${person}/data.zip`,
  when: (person?: string) => `/me/when${person === undefined ? '' : `?person=${person}`}`,
  rota: '/rota',
  rotaRun: (id: string) => `/rota/${id}`,
  messages: '/messages',
  reminders: '/messages/settings',
  mail: '/messages/mail',
  groupText: '/messages/group',
  shiftCalendar: (id: string) => `/api/shifts/${id}/calendar.ics`,
  secondStep: '/second-step',
  classes: '/classes',
  sites: '/sites',
  site: (id: string) => `/sites/${id}`,
  materials: '/materials',
  castings: '/castings',
  keep: '/keep',
  status: '/status',
  takeOut: '/export',
  sheets: '/import',
  sheet: (id: string) => `/import/${id}`,
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

/** Whether a path is a bin's log form, the page that has to stay small (B26). */
export const isLogPath = (path: string): boolean => /^\/bins\/[^/]+\/log$/.test(path);

/** A page that one comes through on the way to another. */
export const withNext = (path: string, next: string): string => (next === '/' ? path : `${path}?next=${encodeURIComponent(next)}`);
