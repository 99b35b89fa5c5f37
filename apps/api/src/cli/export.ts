import { createWriteStream, existsSync, renameSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { checkSound } from '../db/keep/verify.ts';
import { refuseNewerSchema } from '../db/migrate.ts';
import { photoDirOf } from '../photos/shelf.ts';
import { exportProgramme } from '../services/export/write-zip.ts';
import { fileOf } from '../start/data-dir.ts';
import { EXIT, StartRefusal } from '../start-refusal.ts';
import type { Command } from './command.ts';
import { migrationsDir, placeOf } from './place.ts';

/** Asked once all of it was read, as a page may go wrong meanwhile (criteria F11). */
function refuseDamaged(file: string): void {
  try {
    checkSound(file);
  } catch (error) {
    throw new StartRefusal(`Nothing was exported as ${file} is damaged (${(error as Error).message}): put a backup back with restore.`);
  }
}

export const exportCommand: Command = {
  name: 'export',
  usage: 'export FILE.zip [--demo]',
  words: 'Writes everything of the programme but its secrets to one zip that needs no Middenry to read; the server may be running.',
  async run(args) {
    const { config, rest } = placeOf(args);
    if (rest[0] === undefined) throw new StartRefusal(`Say which file to write: npx middenry ${this.usage}`);
    const target = resolve(rest[0]);
    const file = fileOf(config);
    if (!existsSync(file)) throw new StartRefusal(`There is no ${file} yet: start the server first.`, EXIT.storeMissing);
    if (existsSync(target)) throw new StartRefusal(`${target} is there already: choose another name.`);
    refuseNewerSchema(file, migrationsDir);
    const { head, stream } = exportProgramme({ file, photoDir: photoDirOf(config), now: new Date() });
    const part = `${target}.part`;
    try {
      await pipeline(stream, createWriteStream(part, { mode: 0o600 }));
      refuseDamaged(file);
      renameSync(part, target);
    } finally {
      rmSync(part, { force: true });
    }
    console.log(`Exported ${head.rows.entry} entries, ${head.rows.person} people and ${head.photos} photos to ${target}`);
    if (head.photosLost > 0) console.log(`${head.photosLost} photos were lost with a disk and are not in it.`);
    console.log('It holds names and addresses of people: keep it as you would keep those.');
    return 0;
  },
};
