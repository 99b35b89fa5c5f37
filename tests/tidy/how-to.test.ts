/** What stands in docs/how-to is what the program has and does (criteria H14, H15). */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { PHOTO_MOST_BYTES, ROUTES, type RouteSpec } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import { EXIT } from '../../apps/api/src/start-refusal.ts';
import { packagesOf } from '../../scripts/gen/packages.mjs';
import { root } from '../../scripts/lib.mjs';
import { allFiles, readRoot } from './rule.ts';

const pages = allFiles.filter(({ path }) => /^(docs\/(how-to\/.*|security)|README|DEVELOPERS)\.md$/.test(path));
const unit = readRoot('docs/how-to/middenry.service');
/** Every value of a setting of the unit, in order. */
const valuesOf = (name: string) => [...unit.matchAll(new RegExp(`^${name}=(.*)$`, 'gm'))].map(([, value]) => value!);

describe('the pages about running it', () => {
  it('lead nowhere that is not there', () => {
    const links = pages.flatMap(({ path, text }) =>
      [...text.matchAll(/\]\((?!https?:|#)([^)#]+)/g)].map(([, link]) => ({ path, link: link!, to: join(root, dirname(path), link!) })),
    );
    expect(links.length).toBeGreaterThan(50);
    expect(links.filter(({ to }) => !existsSync(to)).map(({ path, link }) => `${path}: ${link}`)).toEqual([]);
  });

  it('H14: name only commands that there are', () => {
    const commands = allFiles
      .filter(({ path }) => path.startsWith('apps/api/src/cli/'))
      .flatMap(({ text }) => /^ {2}name: '([a-z-]+)'/m.exec(text)?.[1] ?? []);
    expect(commands).toEqual(expect.arrayContaining(['backup', 'restore', 'doctor', 'reset-owner']));
    // What goes over to another release is the wrapper's own, as it must outlast the one that runs.
    const ofTheWrapper = /^ {2}(upgrade) \| (rollback)\) "\$@"/m.exec(readRoot('docs/how-to/middenry.sh'))!.slice(1);
    commands.push(...ofTheWrapper);
    const named = pages.flatMap(({ path, text }) =>
      [...text.matchAll(/(?:npx |^ *|`)middenry ([a-z][a-z-]*)/gm)].map(([, command]) => ({ path, command: command! })),
    );
    expect(named.length).toBeGreaterThan(10);
    expect(named.filter(({ command }) => !commands.includes(command))).toEqual([]);
  });
});

describe('the service', () => {
  it('H14: starts what the build makes, as a user of its own, and is left alone when the program refuses to start', () => {
    expect(readRoot('scripts/start.mjs')).toContain("'apps/api/build/server.mjs'");
    expect([valuesOf('ExecStart'), valuesOf('User')]).toEqual([['/usr/bin/env node apps/api/build/server.mjs --own'], ['middenry']]);
    expect(valuesOf('RestartPreventExitStatus')).toEqual([Object.values(EXIT).sort().join(' ')]);
    expect(Number(valuesOf('TimeoutStopSec')[0])).toBeGreaterThan(10);
  });

  it('E1, H14: may write its own folder, and has no rights beside that', () => {
    const wanted = {
      ProtectSystem: 'strict',
      ProtectHome: 'yes',
      PrivateTmp: 'yes',
      PrivateDevices: 'yes',
      NoNewPrivileges: 'yes',
      CapabilityBoundingSet: '',
      UMask: '0027',
    };
    expect(Object.fromEntries(Object.keys(wanted).map((name) => [name, valuesOf(name)[0]]))).toEqual(wanted);
    expect([valuesOf('StateDirectory'), valuesOf('ReadWritePaths')]).toEqual([['middenry'], []]);
    expect(valuesOf('Environment')).toContain('DATA_DIR=/var/lib/middenry');
  });
});

it('the file for the proxy lets through the largest thing that the program takes', () => {
  const most = Math.max(PHOTO_MOST_BYTES, ...(ROUTES as readonly RouteSpec[]).map(({ bodyLimitBytes = 0 }) => bodyLimitBytes));
  const megabytes = Number(/client_max_body_size (\d+)m;/.exec(readRoot('docs/how-to/nginx-middenry.conf'))?.[1]);
  expect(megabytes * 1024 * 1024).toBeGreaterThanOrEqual(most);
});

it('H14, H15: what cannot be compiled at hand comes ready for x64 and for arm64', () => {
  const names = new Set(packagesOf(readRoot('package-lock.json')).map(({ name }) => name));
  const ready = ['@node-rs/argon2-linux-#-gnu', '@img/sharp-linux-#', '@img/sharp-libvips-linux-#', '@esbuild/linux-#'];
  const wanted = ['x64', 'arm64'].flatMap((machine) => ready.map((name) => name.replace('#', machine)));
  expect(wanted.filter((name) => !names.has(name))).toEqual([]);
});
