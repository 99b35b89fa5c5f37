/** Everything a page of somebody signed in does about its phone's store; fetched once the page stands. */
import { resumePhotos } from '../photos/resume.ts';
import { fillPocket, rememberPerson } from '../pocket/store.ts';
import { watchBuilds } from '../worker/builds.ts';
import { listen, tell } from './news.ts';
import Strip from './Strip.svelte';
import { startSending } from './sending.ts';

export { Strip };

/** The pocket is filled anew a moment after the last of many entries has gone. */
const GATHER_MS = 1500;

/** Starts sending and carrying for this person; without a store (a private window) nothing happens. @returns How to stop */
export function startCarrying(personId: string): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const fill = () =>
    void fillPocket(personId).then(
      () => tell({ kind: 'carried' }),
      () => undefined,
    );
  const unlisten = listen((news) => {
    if (news.kind !== 'sent') return;
    clearTimeout(timer);
    timer = setTimeout(fill, GATHER_MS);
  });
  const stop = startSending(personId);
  const stopLooking = watchBuilds();
  resumePhotos(personId);
  void rememberPerson(personId).then(fill, () => undefined);
  return () => {
    clearTimeout(timer);
    unlisten();
    stop();
    stopLooking();
  };
}
