import { resolve } from 'node:path';
import { againWords } from '../db/keep/erase-again.ts';
import { type ErasureList, erasuresInFolder, readErasureList } from '../db/keep/erasures.ts';
import { photoDirOf } from '../photos/shelf.ts';
import { bringBack } from '../services/bring-back/bring-back.ts';
import { BringBackRefusal } from '../services/bring-back/refusal.ts';
import { backupDirOf, ensureDataDir, fileOf } from '../start/data-dir.ts';
import { lockDataDir } from '../start/lock.ts';
import { StartRefusal } from '../start-refusal.ts';
import type { Command } from './command.ts';
import { migrationsDir, nameOf, placeOf } from './place.ts';

export const importCommand: Command = {
  name: 'import',
  usage: 'import FILE.zip [LIST.json] [--demo]',
  words:
    'Brings an export back where no programme has begun; all of it or nothing. Whoever stands in a list of erasures, LIST or the one beside the backups, stays erased. Then reset-owner gives the owner a password.',
  async run(args) {
    const { config, rest } = placeOf(args);
    if (rest[0] === undefined) throw new StartRefusal(`Say which file to read: npx middenry ${this.usage}`);
    ensureDataDir(config);
    const lock = lockDataDir(config.dataDir);
    try {
      const place = { file: fileOf(config), photoDir: photoDirOf(config), migrationsDir, copyDir: backupDirOf(config) };
      const known = knownFor(rest[1], backupDirOf(config), nameOf(config));
      const { head, again } = await bringBack({ zip: resolve(rest[0]), ...place, now: new Date(), isDemo: !config.own, known });
      console.log(`Brought back ${head.rows.entry} entries, ${head.rows.person} people and ${head.photos} photos of ${head.programme}.`);
      for (const line of againWords(again, 'of this programme here')) console.log(line);
      console.log('Passwords are in no export: give the owner a new one with "npx middenry reset-owner".');
      return 0;
    } catch (error) {
      if (error instanceof BringBackRefusal) throw new StartRefusal(`${error.message} Nothing was changed.`);
      throw error;
    } finally {
      lock.release();
    }
  },
};

/** The list that was named, and the one beside the backups of this machine. */
function knownFor(named: string | undefined, backupDir: string, name: 'own' | 'demo'): ErasureList[] {
  const given = named === undefined ? null : readErasureList(resolve(named));
  if (named !== undefined && given === null)
    throw new StartRefusal(`${named} is no list of erasures: it lies beside the backups as own-erased-….json.`);
  return [given, erasuresInFolder(backupDir, name)].filter((list) => list !== null);
}
