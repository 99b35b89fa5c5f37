import type { Board } from '../bin/types.ts';
import { ASK_EVERY_MS, ageMs, isLive, LOOK_EVERY_MS, type Reading, readClocks } from './fresh.ts';

export type Asked = { readonly board: Board } | { readonly shut: boolean };

interface Options {
  readonly first: Board;
  /** Gets the board; `shut` where the server answers that this screen may not see it. */
  readonly ask: () => Promise<Asked>;
  readonly clocks?: () => Reading;
}

/** A board that asks for itself now and then, and knows how old it is. */
export function followBoard({ first, ask, clocks = readClocks }: Options) {
  let board = $state.raw(first);
  let answered = $state.raw(clocks());
  let now = $state.raw(clocks());
  let isShut = $state(false);
  let isPaused = $state(false);
  let isAsking = false;

  async function askNow(): Promise<void> {
    if (isAsking || isPaused) return;
    isAsking = true;
    const answer = await ask();
    isAsking = false;
    if (isPaused) return;
    if ('board' in answer) {
      board = answer.board;
      answered = clocks();
      now = answered;
      isShut = false;
    } else isShut = answer.shut;
  }

  return {
    get board() {
      return board;
    },
    get ageMs() {
      return ageMs(answered, now);
    },
    get isLive() {
      return isLive(answered, now);
    },
    get isShut() {
      return isShut;
    },
    get isPaused() {
      return isPaused;
    },
    askNow,
    pause(paused: boolean) {
      isPaused = paused;
      if (!paused) void askNow();
    },
    /** @returns How to stop */
    start(): () => void {
      const asking = setInterval(() => void askNow(), ASK_EVERY_MS);
      const looking = setInterval(() => {
        now = clocks();
      }, LOOK_EVERY_MS);
      return () => {
        clearInterval(asking);
        clearInterval(looking);
      };
    },
  };
}
