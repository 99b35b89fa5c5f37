import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from '../../scripts/lib.mjs';
import { migrationComplaints, sha256 } from './migrations.ts';
import { readRoot } from './rule.ts';

const one = 'CREATE TABLE a (x INTEGER) STRICT;';
const two = 'CREATE TABLE b (x INTEGER) STRICT;';
const files = new Map([
  ['0001_begin.sql', one],
  ['0002_more.sql', two],
]);

test('F34: released migrations are as they were, and numbers run on', () => {
  const names = readdirSync(join(root, 'migrations')).filter((name) => name.endsWith('.sql'));
  const found = new Map(names.map((name) => [name, readRoot(`migrations/${name}`)]));
  expect(names.length).toBeGreaterThan(0);
  expect(migrationComplaints({ files: found, released: JSON.parse(readRoot('migrations/released.json')) })).toEqual([]);
});

test('migrationComplaints() has nothing against two good files', () => {
  expect(migrationComplaints({ files, released: { '0001_begin.sql': sha256(one) } })).toEqual([]);
});

test.each([
  ['a released file that changed', files, { '0001_begin.sql': sha256(`${one} `) }, 'then changed'],
  ['a released file that is gone', files, { '0003_gone.sql': sha256(one) }, 'is gone'],
  ['a new file below the last released one', files, { '0002_more.sql': sha256(two) }, 'comes before'],
  [
    'a gap',
    new Map([
      ['0001_begin.sql', one],
      ['0003_more.sql', two],
    ]),
    {},
    'expected number 2',
  ],
  ['two of one number', new Map([...files, ['0002_other.sql', two]]), {}, 'expected number 3'],
  ['a name that says nothing', new Map([['0001.sql', one]]), {}, 'NNNN_'],
])('migrationComplaints() catches %s', (_, given, released, words) => {
  expect(migrationComplaints({ files: given, released }).join('\n')).toContain(words);
});
