/**
 * A machine with releases on it, as docs/how-to/install-without-containers.md sets one up: /opt/middenry and the service, with folders of a
 * test in their place. A program of a few lines stands in for systemd, which a test machine need not have; all else is the real thing.
 */
import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, existsSync, mkdirSync, readFileSync, readlinkSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { userInfo } from 'node:os';
import { join } from 'node:path';
import { root } from '../../scripts/lib.mjs';

/** Starts what ExecStart of the unit starts, in the folder that it names, and ends it as the unit does. */
const SYSTEMCTL = `#!/bin/sh
here=$(dirname "$0")
alive() { [ -s "$here/pid" ] && kill -0 "$(cat "$here/pid")" 2>/dev/null; }
stop() { if alive; then kill -TERM "$(cat "$here/pid")"; while alive; do sleep 0.1; done; fi; rm -f "$here/pid"; }
start() { cd "$MIDDENRY_PLACE/current" && { node apps/api/build/server.mjs --own >>"$here/journal" 2>&1 & echo $! >"$here/pid"; }; }
case $1 in
  start) start ;;
  stop) stop ;;
  restart) stop; start ;;
  is-failed) [ -s "$here/pid" ] && ! alive ;;
  *) echo "systemctl: not known to this test: $*" >&2; exit 64 ;;
esac
`;

export interface Said {
  readonly code: number | null;
  readonly text: string;
}

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer().once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address() as { port: number };
      server.close(() => resolve(port));
    });
  });

export class Machine {
  readonly data: string;
  readonly #dir: string;
  readonly #place: string;
  readonly #env: Record<string, string>;
  readonly url: string;

  private constructor(dir: string, port: number) {
    this.#dir = dir;
    this.#place = join(dir, 'opt');
    this.data = join(dir, 'data');
    this.url = `http://127.0.0.1:${port}`;
    for (const folder of ['bin', 'data', 'opt/releases', 'made']) mkdirSync(join(dir, folder), { recursive: true });
    writeFileSync(join(dir, 'bin/systemctl'), SYSTEMCTL);
    chmodSync(join(dir, 'bin/systemctl'), 0o755);
    writeFileSync(join(dir, 'settings.env'), `PUBLIC_URL=\nPORT="${port}"\n`);
    this.#env = {
      PATH: `${join(dir, 'bin')}:${process.env.PATH ?? ''}`,
      HOME: process.env.HOME ?? '',
      ...{ MIDDENRY_PLACE: this.#place, MIDDENRY_USER: userInfo().username, MIDDENRY_SETTINGS: join(dir, 'settings.env') },
      ...{ DATA_DIR: this.data, PORT: String(port) },
    };
  }

  static async at(dir: string): Promise<Machine> {
    return new Machine(dir, await freePort());
  }

  #run(command: string, args: readonly string[], env: Readonly<Record<string, string>> = {}): Said {
    // Both streams in one, so that the words stand in the order in which they were said.
    const { status, stdout } = spawnSync('sh', ['-c', '"$@" 2>&1', 'sh', command, ...args], {
      ...{ env: { ...this.#env, ...env }, encoding: 'utf8', timeout: 900_000, maxBuffer: 1 << 26 },
    });
    return { code: status, text: stdout };
  }

  /** The command of the pages for keepers. */
  middenry(args: readonly string[], env: Readonly<Record<string, string>> = {}): Said {
    return this.#run(join(root, 'docs/how-to/middenry.sh'), args, env);
  }

  service(verb: 'start' | 'stop'): void {
    const { code, text } = this.#run('systemctl', [verb, 'middenry']);
    if (code !== 0) throw new Error(text);
  }

  /** What the service printed, over all its starts. */
  journal = (): string => readFileSync(join(this.#dir, 'bin/journal'), 'utf8');
  pid = (): string => readFileSync(join(this.#dir, 'bin/pid'), 'utf8').trim();
  /** Which release a link points at, by its name; nothing where there is no such link. */
  points(link: 'current' | 'previous'): string | null {
    const path = join(this.#place, link);
    return existsSync(path) ? readlinkSync(path).replace('releases/', '') : null;
  }
  hasRelease = (name: string): boolean => existsSync(join(this.#place, 'releases', name));
  removeRelease = (name: string): void => rmSync(join(this.#place, 'releases', name), { recursive: true });

  /** The first release, unpacked and pointed at by hand, as the page for a new machine says. */
  firstRelease(archive: string, name: string): void {
    const unpacked = this.#run('sh', [
      '-euc',
      `tar -xf ${archive} -C ${this.#place}/releases && cd ${this.#place}/releases/${name} && npm run build && ln -sfn releases/${name} ${this.#place}/current`,
    ]);
    if (unpacked.code !== 0) throw new Error(unpacked.text);
  }

  /** An archive of a folder that is filled here. */
  archive(name: string, fill: (tree: string) => void): string {
    const tree = join(this.#dir, 'made', name);
    mkdirSync(tree);
    fill(tree);
    const file = `${tree}.tar.gz`;
    const packed = this.#run('tar', ['-czf', file, '-C', join(this.#dir, 'made'), name]);
    if (packed.code !== 0) throw new Error(packed.text);
    return file;
  }
}

/** This program as it is built, in an archive whose build only puts the packages beside it; `build` takes the place of that. */
export function builtTree(tree: string, { build }: { build?: string } = {}): void {
  for (const folder of ['apps/api/build', 'migrations', 'shared']) cpSync(join(root, folder), join(tree, folder), { recursive: true });
  symlinkSync(join(root, 'apps/api/package.json'), join(tree, 'apps/api/package.json'));
  mkdirSync(join(tree, 'scripts'));
  writeFileSync(join(tree, 'scripts/middenry.mjs'), "await import('../apps/api/build/cli.mjs');\n");
  const scripts = { build: build ?? `ln -s ${join(root, 'node_modules')} node_modules` };
  writeFileSync(join(tree, 'package.json'), JSON.stringify({ name: 'middenry', type: 'module', scripts }));
}
