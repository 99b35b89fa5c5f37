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
  shifts: '/shifts',
  season: '/season',
  more: '/more',
  bin: (id: string) => `/bins/${id}`,
  binLog: (id: string, kind?: string) => `/bins/${id}/log${kind === undefined ? '' : `?kind=${kind}`}`,
  flags: '/flags',
  flag: (signal: string) => `/flags#${signal}`,
  madeUp: '/what-if',
  whatIf: (id: string) => `/bins/${id}/what-if`,
  binLife: (id: string, kind: 'care' | 'worms', what: string) =>
    `/bins/${id}/log?kind=${kind}&${kind === 'care' ? 'action' : 'direction'}=${what}`,
  shift: (id: string) => `/shifts/${id}`,
  entry: (id: string) => `/entries/${id}`,
  newBin: '/bins/new',
  programme: '/programme',
  people: '/people',
  me: '/me',
  privacy: '/privacy',
  rota: '/rota',
  messages: '/messages',
  secondStep: '/second-step',
  sites: '/sites',
  keep: '/keep',
  sheets: '/import',
  links: '/links',
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
