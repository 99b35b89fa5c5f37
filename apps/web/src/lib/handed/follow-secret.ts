import { secretIn } from './secret-in.ts';

/**
 * Reads the secret that stands after the # of the address. A browser sends that part to no server, no proxy and no other site,
 * so that it is in no log and no Referer (ASVS 14.2.1).
 *
 * @param found Told each new secret: the one the page was opened with, and of a further link opened in the same tab
 * @param how `take`: it goes from the address bar and the history, for links that are used once; `keep`: it stays, so that a bookmark
 * and a screen that starts again find it, also after a link within the page put another word behind the #
 * @returns To be called when the page is there and whenever its address changed; says whether there is a secret
 */
export function followSecret(found: (secret: string) => void, how: 'take' | 'keep'): () => boolean {
  let now: string | null = null;
  return () => {
    const secret = secretIn(location.hash);
    if (secret !== null && secret !== now) {
      now = secret;
      found(secret);
    }
    if (how === 'take' && secret !== null) putHash('');
    if (how === 'keep' && secret === null && now !== null) putHash(`#${now}`);
    return now !== null;
  };
}

const putHash = (hash: string): void => history.replaceState(history.state, '', location.pathname + location.search + hash);
