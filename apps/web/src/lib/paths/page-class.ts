/**
 * The class of the page's root: bin-side pages are set larger and start on day paper, the board may hang on a wall.
 */
export function pageClass(pathname: string): string {
  if (/^\/bins\/[^/]+\/log(\/|$)/.test(pathname) || pathname.startsWith('/log')) return 'field';
  return pathname === '/' || pathname === '/board' ? 'wall' : '';
}
