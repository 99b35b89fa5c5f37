/** The demonstration, made and looked at once for all browser tests: each of them begins with a copy of its folder. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { serve } from './harness.ts';

const NOT_NOW = 503;
const MOST_LOOKS = 6;

declare module 'vitest' {
  export interface ProvidedContext {
    preparedDemo: string;
  }
}

export default async function prepare(project: TestProject): Promise<() => void> {
  const dataDir = mkdtempSync(join(tmpdir(), 'middenry-prepared-'));
  const server = await serve({ dataDir, keepData: true });
  const signedIn = await fetch(`${server.origin}/api/session/demo`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: server.origin },
    body: JSON.stringify({ as: 'coordinator' }),
  });
  const cookie = String(signedIn.headers.get('set-cookie')).split(';')[0]!;
  // The first look steps every bin through its log, which is then kept beside the store;
  // on a busy machine one look is cut off before it is through, and the next goes on from there.
  const look = () => fetch(`${server.origin}/api/board`, { headers: { cookie } });
  let board = await look();
  for (let looks = 1; board.status === NOT_NOW && looks < MOST_LOOKS; looks += 1) board = await look();
  await server.stop();
  if (!board.ok) throw new Error(`Cannot prepare the demonstration: the board answered ${board.status}`);
  project.provide('preparedDemo', dataDir);
  return () => rmSync(dataDir, { recursive: true, force: true });
}
