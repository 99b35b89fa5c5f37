// `npm run gen` writes the files that are made from tables; `npm run gen -- --check` exits 1 when one is stale.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { criteriaText } from './gen/criteria.mjs';
import { catalogueText } from './gen/materials.mjs';
import { licencesText, sbomText } from './gen/packages.mjs';
import { ensureInstalled } from './install.mjs';
import { main, Sorry } from './lib.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const read = (path) => readFileSync(`${root}${path}`, 'utf8');

const TABLES = [
  {
    path: 'packages/domain/src/materials/catalogue.gen.ts',
    make: () => catalogueText(read('shared/materials.csv'), read('shared/decay-rates.csv'), read('shared/material-decay.csv')),
  },
];

const PACKAGES = [
  { path: 'docs/reference/sbom.json', make: () => sbomText(read('package-lock.json'), JSON.parse(read('package.json')).version) },
  { path: 'docs/reference/licences.md', make: () => licencesText(read('package-lock.json')) },
];

/** Read from tests, so after everything else. */
const FROM_TESTS = [{ path: 'docs/reference/criteria.md', make: () => criteriaText(read) }];

const existing = (path) => {
  try {
    return read(path);
  } catch {
    return null;
  }
};

const check = process.argv.includes('--check');

/** Writes the stale ones, unless only asked; gives their paths. */
const staleOf = (generated) =>
  generated.filter(({ path, make }) => {
    const text = make();
    if (existing(path) === text) return false;
    if (!check) {
      mkdirSync(dirname(`${root}${path}`), { recursive: true });
      writeFileSync(`${root}${path}`, text);
    }
    return true;
  });

await main(async () => {
  await ensureInstalled();
  // Its bundler is there only once everything is installed.
  const { referencePages } = await import('./gen/reference.mjs');
  // The reference reads what the tables make, so it comes after them.
  const tables = staleOf(TABLES);
  const stale = [...tables, ...staleOf(await referencePages()), ...staleOf(PACKAGES), ...staleOf(FROM_TESTS)].map(({ path }) => path);
  if (check && stale.length > 0) throw new Sorry('generated files are stale.', { why: stale.join(', '), next: 'npm run gen' });
  console.log(stale.length === 0 ? 'Generated files are fresh.' : `Written: ${stale.join(', ')}`);
});
