import { chmodSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readConfig } from '../../apps/api/src/config.ts';
import { openStore, reasonToRefuse, type StoreFacts } from '../../apps/api/src/db/open.ts';
import { ensureDataDir, openDataFile } from '../../apps/api/src/start/data-dir.ts';
import { lockDataDir } from '../../apps/api/src/start/lock.ts';
import { MIGRATIONS_DIR } from '../cast.ts';
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
  const config = () => readConfig({ DATA_DIR: dir }, ['--own']);
  const open = () => openDataFile(config(), MIGRATIONS_DIR, new Date('2026-11-25T10:00:00.000Z'));

  it('F16: never makes a new store where one was', () => {
    open().sqlite.close();
    open().sqlite.close();
    rmSync(join(dir, 'own.db'));
    expect(open).toThrow(
      expect.objectContaining({ exitCode: 4, message: expect.stringMatching(/missing although it was begun here.*restore/) }),
    );
    writeFileSync(join(dir, 'own.db'), '');
    expect(open).toThrow(/empty although/);
    rmSync(join(dir, 'own.began'));
    open().sqlite.close();
  });

  it('F16: refuses a damaged store in words, and leaves it as it is', () => {
    open().sqlite.close();
    const file = join(dir, 'own.db');
    const bytes = readFileSync(file);
    bytes.fill(0x5a, 3 * 4096, 4 * 4096);
    writeFileSync(file, bytes);
    expect(open).toThrow(/damaged.*restore/);
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
