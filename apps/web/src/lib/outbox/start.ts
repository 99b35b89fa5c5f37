/** Everything a page of somebody signed in does about its phone's store; fetched once the page stands. */
import { resumePhotos } from '../photos/resume.ts';
import { fillPocket, rememberPerson } from '../pocket/store.ts';
import { watchBuilds } from '../worker/builds.ts';
import { waitMs } from './drain.ts';
import { listen, tell } from './news.ts';
import Strip from './Strip.svelte';
import { startSending } from './sending.ts';

export { Strip };

/** The pocket is filled anew a moment after the last of many entries has gone. */
const GATHER_MS = 1500;

/** Starts sending and carrying for this person; without a store (a private window) nothing happens. @returns How to stop */
export function startCarrying(personId: string): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let failed = 0;
  let stopped = false;
  // A server that is busy once must not leave the phone with nothing to open tomorrow.
  const later = () => {
    failed += 1;
    if (!stopped) timer = setTimeout(fill, waitMs(failed, null, Math.random()));
  };
  const fill = () => {
    clearTimeout(timer);
    void fillPocket(personId).then(
      (isDone) => {
        if (!isDone) return later();
        failed = 0;
        tell({ kind: 'carried' });
      },
      () => undefined,
    );
  };
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
    stopped = true;
    clearTimeout(timer);
    unlisten();
    stop();
    stopLooking();
  };
}
