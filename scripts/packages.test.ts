import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { licencesText, packagesOf, sbomText } from './gen/packages.mjs';
import { root } from './lib.mjs';

const readRoot = (path: string) => readFileSync(join(root, path), 'utf8');

const lock = readRoot('package-lock.json');
const version = (JSON.parse(readRoot('package.json')) as { version: string }).version;
/** Licences that a program under Apache 2.0 may be given away with, as the list says under which duties. */
const FINE = /^(MIT|MIT-0|0BSD|ISC|Apache-2\.0|BSD-[23]-Clause|BlueOak-1\.0\.0|Zlib|WTFPL|MPL-2\.0|LGPL-3\.0-or-later)$/;

describe('the list of packages', () => {
  it('E18: has every package of the lock file with a version, a checksum and a licence that may be used', () => {
    const packages = packagesOf(lock);
    expect(packages.length).toBeGreaterThan(300);
    expect(packages.filter(({ version, sha512 }) => version === '' || !/^[0-9a-f]{128}$/.test(sha512))).toEqual([]);
    expect(packages.filter(({ licence }) => !licence.split(/ AND | OR /).every((one) => FINE.test(one)))).toEqual([]);
  });

  it('E18, G12: lies in docs/reference as it would be made now, for people and for programs, without the address of any registry', () => {
    const [sbom, licences] = [readRoot('docs/reference/sbom.json'), readRoot('docs/reference/licences.md')];
    expect([sbom === sbomText(lock, version), licences === licencesText(lock)]).toEqual([true, true]);
    const { bomFormat, specVersion, components } = JSON.parse(sbom) as Record<string, unknown>;
    expect([bomFormat, specVersion, (components as unknown[]).length]).toEqual(['CycloneDX', '1.5', packagesOf(lock).length]);
    expect(`${sbom}${licences}`).not.toMatch(/https?:\/\//);
  });

  it('tells apart what runs, what another machine runs, and what only builds; each version once', () => {
    const made = JSON.stringify({
      packages: {
        '': {},
        'node_modules/own': { link: true },
        'node_modules/a': { version: '1.0.0', license: '(MIT OR Apache-2.0)', integrity: 'sha512-AAAA', dev: true },
        'node_modules/b/node_modules/a': { version: '1.0.0', license: 'MIT', integrity: 'sha512-AAAA' },
        'node_modules/@s/c': { version: '2.0.0', license: 'ISC', integrity: 'sha512-AAAA', optional: true },
      },
    });
    expect(packagesOf(made).map(({ name, scope }) => [name, scope])).toEqual([
      ['@s/c', 'optional'],
      ['a', 'required'],
    ]);
    expect(sbomText(made, '1.0.0')).toContain('"purl":"pkg:npm/%40s/c@2.0.0"');
  });
});
