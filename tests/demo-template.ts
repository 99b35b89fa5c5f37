/** The demonstration, made and looked at once for every build and day: tests begin with a copy of its folder. */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { startServer } from './browser/started.ts';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const MOST_LOOKS = 20;
const shelf = here('../build/demonstrations');

/** What the demonstration is made by, and its day: it is dated from today on. */
function nameOfToday(): string {
  const hash = createHash('sha256');
  for (const dir of [here('../apps/api/build'), here('../migrations')])
    for (const entry of readdirSync(dir, { withFileTypes: true }).filter((one) => one.isFile()))
      hash.update(readFileSync(join(dir, entry.name)));
  return `${new Date().toISOString().slice(0, 10)}-${hash.digest('hex').slice(0, 16)}`;
}

async function makeIn(dataDir: string): Promise<void> {
  const server = await startServer({ dataDir, keepData: true });
  const signedIn = await fetch(`${server.origin}/api/session/demo`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: server.origin },
    body: JSON.stringify({ as: 'coordinator' }),
  });
  const cookie = String(signedIn.headers.get('set-cookie')).split(';')[0]!;
  // The first look steps every bin through its log, which is then kept beside the store; a board
  // names the bins that are missing yet, and the next look goes on from there.
  const look = async () => {
    const answer = await fetch(`${server.origin}/api/board`, { headers: { cookie } });
    const board = (answer.ok ? await answer.json() : { bins: [], waiting: [{}] }) as { bins: { id: string }[]; waiting: unknown[] };
    return { status: answer.status, ...board };
  };
  let board = await look();
  for (let looks = 1; board.waiting.length > 0 && looks < MOST_LOOKS; looks += 1) board = await look();
  // Whoever asks after it waits until the last of them is kept.
  const [bin] = board.bins;
  if (bin) await fetch(`${server.origin}/api/bins/${bin.id}/ensemble`, { headers: { cookie } });
  await server.stop();
  if (board.waiting.length > 0) throw new Error(`Cannot prepare the demonstration: the board answered ${board.status} without all bins`);
}

/** Folder of a demonstration in order, stopped: to be copied, not used. Several may ask at once; the first that is whole stays. */
export async function demoTemplate(): Promise<string> {
  const wanted = join(shelf, nameOfToday());
  if (existsSync(wanted)) return wanted;
  mkdirSync(shelf, { recursive: true });
  const mine = mkdtempSync(join(shelf, 'making-'));
  await makeIn(mine);
  for (const name of readdirSync(shelf)) if (!name.startsWith('making-')) rmSync(join(shelf, name), { recursive: true, force: true });
  try {
    renameSync(mine, wanted);
  } catch {
    // Somebody else's was whole first.
    rmSync(mine, { recursive: true, force: true });
  }
  return wanted;
}
