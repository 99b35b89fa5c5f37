import type { MadeUpDay } from '@middenry/domain';
import { browser } from '$app/environment';
import type { Story } from './story.ts';

/** What the worker is told, and what it tells: a number says which question an answer belongs to. */
export interface ToPlay {
  readonly number: number;
  readonly story: Story;
}
export interface Played {
  readonly number: number;
  readonly days: readonly MadeUpDay[];
}

let worker: Worker | undefined;
let asked = 0;

/** Plays a story from its start to its day: in a worker where there is one, else right here. */
export async function playStory(story: Story): Promise<readonly MadeUpDay[]> {
  if (browser) {
    try {
      return await playBeside(story);
    } catch {
      worker = undefined;
    }
  }
  const { playMadeUp } = await import('./play-here.ts');
  return playMadeUp(story, story.day);
}

function playBeside(story: Story): Promise<readonly MadeUpDay[]> {
  worker ??= new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  const beside = worker;
  const number = ++asked;
  return new Promise((resolve, reject) => {
    const take = ({ data }: MessageEvent<Played>): void => {
      if (data.number !== number) return;
      beside.removeEventListener('message', take);
      resolve(data.days);
    };
    beside.addEventListener('message', take);
    beside.addEventListener('error', reject, { once: true });
    beside.postMessage({ number, story } satisfies ToPlay);
  });
}
