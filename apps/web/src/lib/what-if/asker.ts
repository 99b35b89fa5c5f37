import type { Choice } from './choice.ts';
import type { Question, Told } from './question.ts';

export interface Asker {
  ask(choice: Choice): void;
  close(): void;
}

/** Starts the worker on a bin's members; its newest answer comes once a frame at most. */
export function startAsker(address: string, take: (told: Told) => void): Asker {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  const send = (question: Question): void => worker.postMessage(question);
  let newest: Told | undefined;
  let frame = 0;
  const show = (): void => {
    frame = 0;
    if (newest !== undefined) take(newest);
    newest = undefined;
  };
  worker.addEventListener('message', ({ data }: MessageEvent<Told>) => {
    newest = data;
    if (frame === 0) frame = requestAnimationFrame(show);
  });
  worker.addEventListener('error', () => take({ kind: 'fault' }));
  send({ kind: 'open', address });
  return {
    ask: (choice) => send({ kind: 'ask', choice }),
    close: () => {
      cancelAnimationFrame(frame);
      worker.terminate();
    },
  };
}
