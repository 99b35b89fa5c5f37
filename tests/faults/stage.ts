import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { demoTemplate } from '../demo-template.ts';

const serverFile = fileURLToPath(new URL('../../apps/api/build/server.mjs', import.meta.url));

/** A folder that is gone when the tests of a file are over. */
export class Folders {
  readonly #root = mkdtempSync(join(tmpdir(), 'middenry-faults-'));
  #count = 0;

  fresh(): string {
    this.#count += 1;
    const dir = join(this.#root, String(this.#count));
    mkdirSync(dir);
    return dir;
  }

  /** A data folder with the demonstration in it, as a server left it that was stopped in order. */
  async withDemo(): Promise<string> {
    const dir = this.fresh();
    cpSync(await demoTemplate(), dir, { recursive: true });
    return dir;
  }

  remove(): void {
    rmSync(this.#root, { recursive: true, force: true });
  }
}

export interface Ended {
  readonly exitCode: number | null;
  /** Everything printed, to either stream. */
  readonly text: string;
  readonly ms: number;
}

/** Root may write everywhere; without these two rights it is like any other user. */
const LIKE_ANYBODY =
  process.getuid?.() === 0 ? ['setpriv', '--bounding-set=-dac_override,-dac_read_search', '--inh-caps=-dac_override,-dac_read_search'] : [];

/** A start that is expected to be refused; one that is not refused is ended after ten seconds and has no exit code. */
export function startRefused(
  dataDir: string,
  { env = {}, flags = [] }: { env?: Readonly<Record<string, string>>; flags?: readonly string[] } = {},
): Ended {
  const began = performance.now();
  const [program = '', ...words] = [...LIKE_ANYBODY, process.execPath, '--no-deprecation', serverFile, ...flags];
  const { status, stdout, stderr } = spawnSync(program, words, {
    env: { PATH: process.env.PATH ?? '', PORT: '0', DATA_DIR: dataDir, ...env },
    encoding: 'utf8',
    timeout: 10_000,
  });
  return { exitCode: status, text: `${stdout}${stderr}`, ms: performance.now() - began };
}

const QUICK_MS = 2000;
const MOST_TRIES = 4;

/** The first of a few starts that is refused in time: a busy machine may hold up one, and a slow program holds up all. */
export function quicklyRefused(...how: Parameters<typeof startRefused>): Ended {
  for (let tries = 1; ; tries += 1) {
    const ended = startRefused(...how);
    if (ended.ms <= QUICK_MS || tries === MOST_TRIES) return ended;
  }
}

/** What SQLite itself says of a file that no process holds open any more. */
export function soundness(dataDir: string): { integrity: unknown; strays: unknown[]; halves: number; walBytesLeft: boolean } {
  const file = join(dataDir, 'demo.db');
  const walBytesLeft = existsSync(`${file}-wal`);
  const db = new Database(file, { readonly: true });
  try {
    const halves = db.prepare(
      `SELECT count(*) FROM entry e WHERE e.kind = 'feeding'
       AND NOT EXISTS (SELECT 1 FROM feeding f JOIN feeding_item i ON i.entry_id = f.entry_id WHERE f.entry_id = e.id)`,
    );
    return {
      integrity: db.pragma('integrity_check', { simple: true }),
      strays: db.pragma('foreign_key_check') as unknown[],
      halves: Number(halves.pluck().get()),
      walBytesLeft,
    };
  } finally {
    db.close();
  }
}
