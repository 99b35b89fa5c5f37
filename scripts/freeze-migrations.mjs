// Run once for each release: writes down the hash of every migration, after which tests/tidy refuses any change to it.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { main, root, Sorry, say } from './lib.mjs';

const dir = join(root, 'migrations');
const listFile = join(dir, 'released.json');

await main(async () => {
  const released = JSON.parse(readFileSync(listFile, 'utf8'));
  const names = readdirSync(dir).filter((name) => name.endsWith('.sql'));
  for (const name of names.sort()) {
    const hash = createHash('sha256')
      .update(readFileSync(join(dir, name)))
      .digest('hex');
    if (released[name] && released[name] !== hash)
      throw new Sorry(`${name} was released and then changed.`, { next: `git log -- migrations/${name}` });
    released[name] = hash;
  }
  writeFileSync(listFile, `${JSON.stringify(released, null, 2)}\n`);
  say(`${names.length} migrations are frozen in migrations/released.json`);
});
