import { existsSync, statfsSync } from 'node:fs';
import type { Config } from '../config.ts';
import { listBackups } from '../db/keep/backup.ts';
import { provenFacts } from '../db/keep/restore.ts';
import { soundFacts } from '../db/keep/verify.ts';
import { refuseNewerSchema } from '../db/migrate.ts';
import { backupDirOf, ensureDataDir, fileOf } from '../start/data-dir.ts';
import { lockDataDir } from '../start/lock.ts';
import type { Command } from './command.ts';
import { migrationsDir, nameOf, placeOf } from './place.ts';

const HOUR_MS = 3_600_000;
const BACKUP_OLD_HOURS = 48;
const LOW_BYTES = 500 * 1024 * 1024;

interface Finding {
  readonly ok: boolean;
  readonly words: string;
}

const good = (words: string): Finding => ({ ok: true, words });
const bad = (words: string): Finding => ({ ok: false, words });

export const doctorCommand: Command = {
  name: 'doctor',
  usage: 'doctor [--demo]',
  words: 'Looks at folder, store, backups and disk, says what it finds, and ends with 1 when something needs you.',
  run(args) {
    const { config } = placeOf(args);
    const file = fileOf(config);
    const checks: readonly (() => Finding)[] = [
      () => folder(config),
      () => running(config.dataDir),
      () => (existsSync(file) ? good(`the store is ${file}`) : bad(`there is no store ${file}: start the server, or restore a backup`)),
      () => schema(file),
      () => store(file),
      () => backups(backupDirOf(config), nameOf(config)),
      () => disk(config.dataDir),
    ];
    const findings = checks.map((check) => tried(check));
    for (const { ok, words } of findings) console.log(`${ok ? 'well ' : 'look!'} ${words}`);
    return findings.every(({ ok }) => ok) ? 0 : 1;
  },
};

function tried(check: () => Finding): Finding {
  try {
    return check();
  } catch (error) {
    return bad((error as Error).message);
  }
}

function folder(config: Config): Finding {
  ensureDataDir(config);
  return good(`the folder ${config.dataDir} can be written`);
}

function schema(file: string): Finding {
  refuseNewerSchema(file, migrationsDir);
  return good('this program knows the schema of the store');
}

/** A server that runs is no fault; it is said because restoring has to wait for it to stop. */
function running(dataDir: string): Finding {
  try {
    lockDataDir(dataDir).release();
    return good('no server is running here');
  } catch {
    return good('a server is running here');
  }
}

function store(file: string): Finding {
  if (!existsSync(file)) return bad('nothing to look into');
  const { totals } = soundFacts(file);
  return good(`the store is sound: ${totals.entries} entries, ${totals.people} people`);
}

function backups(dir: string, name: 'own' | 'demo'): Finding {
  const newest = listBackups(dir, name)[0];
  if (newest === undefined) return name === 'demo' ? good('the demonstration needs no backup') : bad(`there is no backup in ${dir} yet`);
  provenFacts(newest.file);
  const hours = Math.floor((Date.now() - Date.parse(newest.manifest.madeAt)) / HOUR_MS);
  const words = `the newest backup is ${hours} hours old and reads back whole`;
  return hours > BACKUP_OLD_HOURS ? bad(`${words}; if entries were made since, find out why there is none newer`) : good(words);
}

function disk(dir: string): Finding {
  const { bavail, bsize } = statfsSync(dir);
  const free = Math.round((bavail * bsize) / (1024 * 1024));
  return bavail * bsize < LOW_BYTES ? bad(`only ${free} MB are free: make room`) : good(`${free} MB are free`);
}
