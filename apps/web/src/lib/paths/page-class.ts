/** The class of the page's root: bin-side pages are set larger and start on day paper. */
export function pageClass(pathname: string): string {
  return /^\/bins\/[^/]+\/log(\/|$)/.test(pathname) || /^\/(log|find|b)(\/|$)/.test(pathname) ? 'field' : '';
}
