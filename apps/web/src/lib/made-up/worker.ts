/** Plays made-up bins beside the page, so that the page itself never waits. */
import { playMadeUp } from '@middenry/domain';
import type { Played, ToPlay } from './play.ts';

self.addEventListener('message', ({ data: { number, story } }: MessageEvent<ToPlay>) => {
  self.postMessage({ number, days: playMadeUp(story, story.day) } satisfies Played);
});
