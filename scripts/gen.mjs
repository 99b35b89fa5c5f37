// `npm run gen` writes the files that are made from tables; `npm run gen -- --check` exits 1 when one is stale.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { catalogueText } from './gen/materials.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const read = (path) => readFileSync(`${root}${path}`, 'utf8');

const GENERATED = [
  {
    path: 'packages/domain/src/materials/catalogue.gen.ts',
    make: () => catalogueText(read('shared/materials.csv'), read('shared/decay-rates.csv'), read('shared/material-decay.csv')),
  },
];

const existing = (path) => {
  try {
    return read(path);
  } catch {
    return null;
  }
};

const check = process.argv.includes('--check');
const stale = GENERATED.filter(({ path, make }) => {
  const text = make();
  if (existing(path) === text) return false;
  if (!check) writeFileSync(`${root}${path}`, text);
  return true;
});

if (check && stale.length > 0) {
  console.error(`Stale, run npm run gen: ${stale.map(({ path }) => path).join(', ')}`);
  process.exit(1);
}
console.log(stale.length === 0 ? 'Generated files are fresh.' : `Written: ${stale.map(({ path }) => path).join(', ')}`);
