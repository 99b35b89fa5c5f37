import { listBackups, makeBackup } from '../db/keep/backup.ts';
import { photoDirOf } from '../photos/shelf.ts';
import { backupDirOf } from '../start/data-dir.ts';
import type { Command } from './command.ts';
import { nameOf, placeOf, withStore } from './place.ts';

export const backupCommand: Command = {
  name: 'backup',
  usage: 'backup [--demo] [--list]',
  words: 'Makes a backup, read back and compared, while the server is stopped; a running server makes its own. --list shows what there is.',
  async run(args) {
    const { config, rest } = placeOf(args);
    const dir = backupDirOf(config);
    if (rest.includes('--list')) {
      for (const { file, manifest } of listBackups(dir, nameOf(config)))
        console.log(`${manifest.madeAt}  ${manifest.facts.totals.entries} entries  ${file}`);
      return 0;
    }
    const { file, manifest } = await withStore(config, (store) =>
      makeBackup(store, { dir, name: nameOf(config), kind: 'asked-for', now: new Date(), photoDir: photoDirOf(config) }),
    );
    console.log(`Backed up ${manifest.facts.totals.entries} entries and ${manifest.facts.totals.people} people to ${file}`);
    return 0;
  },
};
