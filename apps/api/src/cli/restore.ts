import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { listBackups } from '../db/keep/backup.ts';
import { againWords } from '../db/keep/erase-again.ts';
import { restore } from '../db/keep/restore.ts';
import { photoDirOf } from '../photos/shelf.ts';
import { backupDirOf, ensureDataDir, fileOf } from '../start/data-dir.ts';
import { lockDataDir } from '../start/lock.ts';
import { StartRefusal } from '../start-refusal.ts';
import type { Command } from './command.ts';
import { migrationsDir, nameOf, placeOf } from './place.ts';

export const restoreCommand: Command = {
  name: 'restore',
  usage: 'restore [FILE] [--demo]',
  words: 'Puts a backup (the newest, or FILE) in the place of the programme; what was there is kept beside. Everybody signs in again.',
  run(args) {
    const { config, rest } = placeOf(args);
    const dir = backupDirOf(config);
    const backup = rest[0] === undefined ? listBackups(dir, nameOf(config))[0]?.file : resolve(rest[0]);
    if (backup === undefined || !existsSync(backup)) throw new StartRefusal(`There is no backup ${backup ?? `in ${dir}`}: name the file.`);
    ensureDataDir(config);
    const lock = lockDataDir(config.dataDir);
    try {
      const photoDir = photoDirOf(config);
      const place = { file: fileOf(config), migrationsDir, copyDir: dir, photoDir };
      const { facts, before, photos, photosLost, again } = restore({ backup, ...place, now: new Date() });
      const { entries, people, fedG, harvestedG, minutes } = facts.totals;
      console.log(`Restored ${entries} entries and ${people} people: fed ${fedG} g, harvested ${harvestedG} g, ${minutes} minutes given.`);
      for (const line of againWords(again, 'beside the backup')) console.log(line);
      if (photos > 0) console.log(`Restored ${photos} photos.`);
      if (photosLost > 0) console.log(`${photosLost} photos were in no backup any more and are gone.`);
      if (before !== null) console.log(`What was there before is ${before}`);
      return 0;
    } catch (error) {
      if (error instanceof StartRefusal) throw error;
      throw new StartRefusal(`Cannot restore ${backup}: ${(error as Error).message}. Nothing was changed; try an older backup.`);
    } finally {
      lock.release();
    }
  },
};
