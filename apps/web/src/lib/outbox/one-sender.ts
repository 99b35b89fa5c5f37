const NAME = 'middenry-outbox';

/** One at a time over all tabs. Without locks (plain http) two may send at once, and the server takes each id once. */
export function quietly<T>(work: () => Promise<T>): Promise<T> {
  const locks = typeof navigator === 'undefined' ? undefined : navigator.locks;
  return locks === undefined ? inTurn(work) : (locks.request(NAME, work) as Promise<T>);
}

let last: Promise<unknown> = Promise.resolve();
function inTurn<T>(work: () => Promise<T>): Promise<T> {
  const mine = last.then(work, work);
  last = mine;
  return mine;
}
