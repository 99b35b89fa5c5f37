/** What goes through all bins at once, each asked for once: how long it takes, what it weighs, and how long others wait beside it. */
import { addDays } from '../apps/api/src/services/local-time.ts';
import type { LoadStage } from './load-stage.ts';
import { table } from './measure.ts';
import { forgetMostMemory, mostMemoryMb } from './process-use.ts';

const DAYS = 365;
const dayAgo = (days: number): string => addDays(new Date().toISOString().slice(0, 10), -days);
const ASKED: readonly (readonly [what: string, path: string, headers?: Readonly<Record<string, string>>])[] = [
  ['board', '/api/board'],
  ['board as a page', '/', { accept: 'text/html' }],
  ['bins', '/api/bins'],
  ['duties', '/api/duties'],
  ['status', '/api/status'],
  ['season of a year', `/api/season?from=${dayAgo(DAYS)}&to=${dayAgo(1)}`],
  ['everything as one file', '/api/export.zip'],
];
const BESIDE_MS = 50;
const MB = 1e6;

/** Somebody else who looks at one bin again and again, until told to stop; tells the longest wait [ms]. */
function besides(stage: LoadStage): () => Promise<number> {
  let isOver = false;
  let worstMs = 0;
  const asking = (async () => {
    while (!isOver) {
      const since = performance.now();
      await stage.beside.send(`/api/bins/${stage.binIds[0]}`);
      worstMs = Math.max(worstMs, performance.now() - since);
      await new Promise((resolve) => setTimeout(resolve, BESIDE_MS));
    }
  })();
  return async () => {
    isOver = true;
    await asking;
    return worstMs;
  };
}

export async function wholeRows(stage: LoadStage): Promise<string> {
  const rows: (string | number)[][] = [];
  for (const [what, path, headers = {}] of ASKED) {
    stage.mostMemoryMb();
    forgetMostMemory(stage.server.pid);
    const stop = besides(stage);
    const since = performance.now();
    const { status, bytes } = await stage.coordinator.send(path, { headers });
    const tookS = (performance.now() - since) / 1000;
    rows.push([what, `${status}`, tookS, bytes / MB, await stop(), mostMemoryMb(stage.server.pid)]);
  }
  return table(['asked once', 'status', 's', 'MB', 'another waited at most ms', 'server held MB'], rows);
}
