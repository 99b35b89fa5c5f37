import { expect, test } from 'vitest';
import { allFiles, readRoot } from './rule.ts';

interface Entry {
  readonly resolved?: string;
  readonly link?: boolean;
  readonly integrity?: string;
  readonly hasInstallScript?: boolean;
}

interface Manifest {
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
  readonly allowScripts?: Readonly<Record<string, boolean>>;
}

const lock = Object.entries((JSON.parse(readRoot('package-lock.json')) as { packages: Record<string, Entry> }).packages);
const installed = lock.filter(([path, entry]) => path.includes('node_modules/') && !entry.link);

test('package-lock.json names no registry: each package is known by its hash', () => {
  expect(installed.length).toBeGreaterThan(100);
  expect(installed.filter(([, entry]) => entry.resolved).map(([path]) => path)).toEqual([]);
  expect(installed.filter(([, entry]) => !entry.integrity).map(([path]) => path)).toEqual([]);
});

test('E18: every package with an install script is one we allow', () => {
  const { allowScripts = {} } = JSON.parse(readRoot('package.json')) as Manifest;
  const withScript = installed.filter(([, entry]) => entry.hasInstallScript).map(([path]) => path.split('node_modules/').at(-1) ?? path);
  const optionalOnMac = 'fsevents';
  expect(withScript.filter((name) => !allowScripts[name] && name !== optionalOnMac)).toEqual([]);
});

test('E18: at most 40 packages are asked for at run time', () => {
  const manifests = allFiles.filter(({ path }) => /(^|\/)package\.json$/.test(path)).map(({ text }) => JSON.parse(text) as Manifest);
  const wanted = manifests
    .flatMap(({ dependencies = {} }) => Object.entries(dependencies))
    .filter(([name]) => !name.startsWith('@middenry/'));
  expect(new Set(wanted.map(([name]) => name)).size).toBeLessThanOrEqual(40);
});
