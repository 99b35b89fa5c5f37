import { chmodSync, copyFileSync, cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readConfig } from '../../apps/api/src/config.ts';
import { openStore, reasonToRefuse, type StoreFacts } from '../../apps/api/src/db/open.ts';
import { closeInOrder } from '../../apps/api/src/db/open-note.ts';
import { ensureDataDir, openDataFile } from '../../apps/api/src/start/data-dir.ts';
import { lockDataDir } from '../../apps/api/src/start/lock.ts';
import { MIGRATIONS_DIR, uuid } from '../cast.ts';
import { dropDataDir, freshDataDir, startRefused } from './server-process.ts';

let dir: string;
beforeEach(() => {
  dir = freshDataDir();
});
afterEach(() => dropDataDir(dir));

const sound: StoreFacts = {
  file: 'own.db',
  sqliteVersion: '3.53.2',
  journalMode: 'wal',
  synchronous: 2,
  foreignKeys: 1,
  mmapSizeBytes: 0,
  busyTimeoutMs: 5000,
  fileSystemType: 0xef53,
};

describe('F1: reasonToRefuse()', () => {
  it('has nothing against a sound connection', () => {
    expect(reasonToRefuse(sound, false)).toBeNull();
    expect(reasonToRefuse({ ...sound, sqliteVersion: '3.51.3', synchronous: 3 }, false)).toBeNull();
  });

  const bad: Readonly<Record<string, [Partial<StoreFacts>, RegExp]>> = {
    'a SQLite that can corrupt its log': [{ sqliteVersion: '3.51.2' }, /3\.51\.3 or newer.*3\.51\.2/],
    'an old one of many digits': [{ sqliteVersion: '3.9.10' }, /3\.9\.10/],
    'the one that was withdrawn': [{ sqliteVersion: '3.52.0' }, /not 3\.52\.0/],
    'a journal that is no WAL': [{ journalMode: 'delete' }, /wal: current value is delete/],
    'a sync that can lose the last entries': [{ synchronous: 1 }, /FULL: current value is 1/],
    'foreign keys off': [{ foreignKeys: 0 }, /foreign keys must be on/],
    'a mapped file': [{ mmapSizeBytes: 1 }, /memory mapped/],
    'too little patience': [{ busyTimeoutMs: 4999 }, /5000 ms or more/],
    'a network disk': [{ fileSystemType: 0x6969 }, /local disk: current value is NFS/],
  };
  it.each(Object.entries(bad))('refuses %s in one sentence', (_name, [change, words]) => {
    expect(reasonToRefuse({ ...sound, ...change }, false)).toMatch(words);
  });

  it('lets a network disk through only when somebody says so', () => {
    expect(reasonToRefuse({ ...sound, fileSystemType: 0x6969 }, true)).toBeNull();
  });
});

describe('openStore()', () => {
  it('F1: measures the settings on the real connection', () => {
    const { sqlite } = openStore({ file: join(dir, 'a.db') });
    const read = (name: string) => sqlite.pragma(name, { simple: true });
    expect([read('journal_mode'), read('synchronous'), read('foreign_keys'), read('busy_timeout')]).toEqual(['wal', 2, 1, 5000]);
    sqlite.close();
  });

  it('refuses a store in memory, which can have no WAL', () => {
    expect(() => openStore({ file: ':memory:' })).toThrow(/wal: current value is memory/);
  });

  it('F16: refuses a file that is no database', () => {
    writeFileSync(join(dir, 'a.db'), 'so this is how it ends '.repeat(200));
    expect(() => openStore({ file: join(dir, 'a.db') })).toThrow(/not a readable, writable database.*restore/);
  });
});

describe('openDataFile()', () => {
  const config = (dataDir = dir) => readConfig({ DATA_DIR: dataDir }, ['--own']);
  const now = new Date('2026-11-25T10:00:00.000Z');
  const open = (dataDir = dir) => openDataFile(config(dataDir), MIGRATIONS_DIR, now);

  /** Cut off in the middle of a run, so many sites after it was begun: the copy is what a power cut would have left on the disk. */
  function cutOff(name: string, sites: number): string {
    const [running, cut] = [join(dir, `${name}-running`), join(dir, name)];
    mkdirSync(running);
    const store = open(running);
    const site = store.sqlite.prepare("INSERT INTO site (id, name, time_zone, created_at) VALUES (?, ?, 'UTC', '2026-11-25')");
    store.sqlite.transaction(() => {
      for (let at = 0; at < sites; at += 1) site.run(uuid(7000 + at), `${name} ${at}`);
    })();
    cpSync(running, cut, { recursive: true });
    store.sqlite.close();
    return cut;
  }
  const sitesIn = (dataDir: string): number => {
    const store = open(dataDir);
    const sites = Number(store.sqlite.prepare('SELECT count(*) FROM site').pluck().get());
    closeInOrder(store);
    return sites;
  };

  it('F16: reads what a power cut left in the log, and refuses when the log is gone', () => {
    const cut = cutOff('cut', 20);
    const lost = join(dir, 'lost');
    cpSync(cut, lost, { recursive: true });
    expect(sitesIn(cut)).toBe(20);
    // Closed in order since, so that no log is missed any more.
    expect([existsSync(join(cut, 'own.db-wal')), sitesIn(cut)]).toEqual([false, 20]);
    rmSync(join(lost, 'own.db-wal'));
    const before = readFileSync(join(lost, 'own.db'));
    expect(() => open(lost)).toThrow(/log .*own\.db-wal is missing: put its own back, restore/);
    expect(readFileSync(join(lost, 'own.db')).equals(before)).toBe(true);
  });

  it('F16: never takes in the log of another store, which SQLite would', () => {
    const [mine, other] = [cutOff('mine', 20), cutOff('other', 3)];
    const file = join(mine, 'own.db');
    copyFileSync(join(other, 'own.db-wal'), `${file}-wal`);
    const before = ['', '-wal'].map((tail) => readFileSync(file + tail));
    expect(() => open(mine)).toThrow(/log .*own\.db-wal is another store's/);
    expect(['', '-wal'].map((tail) => readFileSync(file + tail))).toEqual(before);
    rmSync(`${file}.open`);
    expect(sitesIn(mine)).toBe(3);
  });

  it('F16: knows its own log again after it was folded in and begun anew', () => {
    const running = join(dir, 'long');
    mkdirSync(running);
    const store = open(running);
    for (let round = 0; round < 5; round += 1) {
      store.sqlite.pragma('wal_checkpoint(RESTART)');
      store.sqlite
        .prepare("INSERT INTO site (id, name, time_zone, created_at) VALUES (?, ?, 'UTC', '2026-11-25')")
        .run(uuid(round), `${round}`);
    }
    const cut = join(dir, 'long-cut');
    cpSync(running, cut, { recursive: true });
    store.sqlite.close();
    expect(sitesIn(cut)).toBe(5);
  });

  it('F16: never makes a new store where one was', () => {
    closeInOrder(open());
    closeInOrder(open());
    rmSync(join(dir, 'own.db'));
    expect(() => open()).toThrow(
      expect.objectContaining({ exitCode: 4, message: expect.stringMatching(/missing although it was begun here.*restore/) }),
    );
    writeFileSync(join(dir, 'own.db'), '');
    expect(() => open()).toThrow(/empty although/);
    rmSync(join(dir, 'own.began'));
    closeInOrder(open());
  });

  it('F16: refuses a damaged store in words, and leaves it as it is', () => {
    closeInOrder(open());
    const file = join(dir, 'own.db');
    const bytes = readFileSync(file);
    bytes.fill(0x5a, 3 * 4096, 4 * 4096);
    writeFileSync(file, bytes);
    expect(() => open()).toThrow(/damaged.*restore/);
    expect(readFileSync(file).equals(bytes)).toBe(true);
  });

  it('F25: says which folder cannot be written, and what to do', () => {
    writeFileSync(join(dir, 'file'), '');
    expect(() => ensureDataDir({ ...config(), dataDir: join(dir, 'file', 'data') })).toThrow(
      /Cannot write into .*file\/data .*set DATA_DIR/,
    );
  });
});

describe('lockDataDir()', () => {
  it('F22: holds until it is released', () => {
    const first = lockDataDir(dir);
    expect(() => lockDataDir(dir)).toThrow(expect.objectContaining({ exitCode: 5 }));
    first.release();
    lockDataDir(dir).release();
  });
});

describe('readConfig()', () => {
  it('E15: refuses plain http for other machines, and says what is missing', () => {
    expect(() => readConfig({ HOST: '0.0.0.0' }, [])).toThrow(/PUBLIC_URL=https.* and TRUSTED_PROXY/);
    expect(() => readConfig({ HOST: '0.0.0.0', PUBLIC_URL: 'http://bins.example.org', TRUSTED_PROXY: '10.0.0.2' }, [])).toThrow(
      /PUBLIC_URL=https/,
    );
    expect(() => readConfig({ HOST: '0.0.0.0', PUBLIC_URL: 'https://bins.example.org' }, [])).toThrow(/set TRUSTED_PROXY/);
    const open = readConfig({ HOST: '0.0.0.0', PUBLIC_URL: 'https://bins.example.org', TRUSTED_PROXY: '10.0.0.2, ::1' }, []);
    expect([open.secure, open.trustedProxy, open.demoEntry]).toEqual([true, ['10.0.0.2', '::1'], false]);
  });

  it('closes the one-tap entry as soon as there is a public address, unless it is asked for', () => {
    expect(readConfig({}, []).demoEntry).toBe(true);
    expect(readConfig({ PUBLIC_URL: 'https://bins.example.org' }, []).demoEntry).toBe(false);
    expect(readConfig({ PUBLIC_URL: 'https://bins.example.org' }, ['--public-demo']).demoEntry).toBe(true);
    expect(readConfig({}, ['--own', '--public-demo']).demoEntry).toBe(false);
  });

  it.each([
    [['--port', '99999'], /PORT must be a number/],
    [['--host'], /plain http|Cannot listen/],
    [['--colour', 'red'], /--colour is no setting/],
    [['--own=maybe'], /OWN must be yes or no/],
    [['--public-url', 'bins'], /PUBLIC_URL must be an address/],
    [['--trusted-proxy', 'nginx'], /TRUSTED_PROXY must hold IP addresses/],
  ])('refuses %j in words', (flags, words) => {
    expect(() => readConfig({}, flags)).toThrow(words);
  });
});

describe('the server', () => {
  it('refuses in one sentence, with a code of its own, and leaves nothing behind', async () => {
    const { code, words } = await startRefused({ dataDir: dir, env: { HOST: '0.0.0.0' } });
    expect(code).toBe(2);
    expect(words).toMatch(/^middenry: Cannot listen on 0\.0\.0\.0 .*\n$/);
  });

  it('F25: refuses a folder that is in the way', async () => {
    const file = join(dir, 'file');
    writeFileSync(file, '');
    chmodSync(file, 0o400);
    mkdirSync(join(dir, 'other'));
    const { code, words } = await startRefused({ dataDir: file });
    expect(code).toBe(2);
    expect(words).toMatch(/^middenry: Cannot write into .*\n$/);
  });
});
