/**
 * The archive and a carried store of packages, on a machine without a network: built, started and tested (criteria G12).
 * The commands are those of the page for keepers, with folders of this test in place of theirs. Filling the store asks npm's registry;
 * from then on everything runs where the only network is the machine's own loopback. Linux, with `unshare` and `ip`.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../scripts/lib.mjs';

const MOST_MS = 1_800_000;
const PORT = '4860';
const NAME = 'middenry-0.1.0';
/** RFC 5737: an address of nobody, that only a machine with a way out would try to reach. */
const NOBODY = '192.0.2.1';
let dir: string;
let blocks: string[];

interface Ran {
  readonly code: number | null;
  readonly said: string;
}

/** Nothing that npm told this test about itself goes on; SQLite's compiled part is looked for in a folder of the test alone. */
function environment(): NodeJS.ProcessEnv {
  const own = Object.entries(process.env).filter(([name]) => !/^(npm_|PROOF$|VITEST|NODE_ENV$|NODE_OPTIONS$)/.test(name));
  return { ...Object.fromEntries(own), XDG_CACHE_HOME: join(dir, 'cache'), NO_COLOR: '1' };
}

/** @param within `online`: as this machine is; `alone`: in a network of its own, where nothing but loopback is */
function run(script: string, within: 'online' | 'alone'): Ran {
  const [command, args] =
    within === 'online' ? ['sh', ['-euc', script]] : ['unshare', ['-rn', 'sh', '-euc', `ip link set lo up\n${script}`]];
  const { status, stdout, stderr, error } = spawnSync(command as string, args as string[], {
    ...{ cwd: join(dir, 'desk'), env: environment(), encoding: 'utf8', timeout: MOST_MS, maxBuffer: 1 << 26 },
  });
  return { code: status, said: `${error?.message ?? ''}${stdout ?? ''}${stderr ?? ''}` };
}

function well(ran: Ran): string {
  expect(ran, ran.said).toMatchObject({ code: 0 });
  return ran.said;
}

beforeAll(() => {
  dir = mkdtempSync(join(tmpdir(), 'air-gapped-'));
  for (const folder of ['desk', 'stick', 'opt']) mkdirSync(join(dir, folder));
  const page = readFileSync(join(root, 'docs/how-to/install-without-a-network.md'), 'utf8');
  blocks = [...page.matchAll(/^```sh\n([\s\S]*?)^```$/gm)].map(([, block]) =>
    block!.replaceAll('/opt/middenry', join(dir, 'opt')).replaceAll('/media/stick', join(dir, 'stick')),
  );
  const made = spawnSync('git', ['archive', '--format=tar.gz', `--prefix=${NAME}/`, '-o', join(dir, 'desk', `${NAME}.tar.gz`), 'HEAD'], {
    ...{ cwd: root, encoding: 'utf8' },
  });
  if (made.status !== 0) throw new Error(`no archive of HEAD: ${made.stderr}`);
});
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const asksNobody = `node -e "require('node:net').connect(9, '${NOBODY}').on('error', ({ code }) => console.log(code))"`;
const served = `
DATA_DIR="$PWD/data" PORT=${PORT} node apps/api/build/server.mjs --own &
trap "kill $!" EXIT
for n in $(seq 120); do node -e "fetch('http://127.0.0.1:${PORT}/livez').then(async (a) => console.log('livez', a.status, await a.text()), () => process.exit(1))" && break; sleep 0.5; done
node -e "fetch('http://127.0.0.1:${PORT}/', { headers: { accept: 'text/html' } }).then(async (a) => console.log('page', a.status, (await a.text()).includes('</html>')))"`;

test(
  'G12: the archive is built, started and tested without a network from a carried store of packages, as the page for keepers says',
  () => {
    expect(blocks).toHaveLength(2);
    const [fetched, built] = blocks as [string, string];
    const ms: number[] = [];
    const timed = (script: string, within: 'online' | 'alone') => {
      const since = performance.now();
      const ran = run(script, within);
      ms.push(Math.round(performance.now() - since));
      return ran;
    };
    well(timed(fetched, 'online'));
    well(run(`mv carried ../stick/ && du -sm ../stick && rm -r ${NAME}`, 'online'));
    expect(well(run(asksNobody, 'alone')).trim()).toBe('ENETUNREACH');
    // Without what was carried there is nothing to build from, so that the build below has it from nowhere else.
    const empty = run(
      `tar -xf ${NAME}.tar.gz && cd ${NAME} && npm_config_cache="$PWD/none" npm_config_offline=true npm run build`,
      'alone',
    );
    expect([empty.code === 0, empty.said.includes('ENOTCACHED')]).toEqual([false, true]);

    const said = well(timed(built, 'alone'));
    expect(said).toContain('compiling SQLite');
    const here = join(dir, 'opt/releases', NAME);
    const parts = [
      'LICENSE',
      'docs/reference/sbom.json',
      'docs/reference/licences.md',
      'apps/api/build/server.mjs',
      'apps/web/build/client',
    ];
    expect(parts.filter((part) => !existsSync(join(here, part)))).toEqual([]);
    const answered = well(timed(`cd ${here}\n${served}`, 'alone'));
    expect(answered).toMatch(/livez 200 /);
    expect(answered).toMatch(/page 200 true/);
    expect(well(timed(`cd ${here} && npx vitest run --project unit packages/domain/src/season`, 'alone'))).toMatch(/Tests +\d+ passed/);

    // The way without a compiler: its compiled part is in the folder that was to be carried.
    const again = built.replace('npm run build', 'rm -r node_modules\nnpm run build');
    expect(well(timed(again, 'alone'))).toContain('SQLite taken from the cache');
    process.stdout.write(`fetched, built, answered, tested, built with SQLite carried [ms]: ${ms.join(', ')}\n`);
  },
  MOST_MS,
);
