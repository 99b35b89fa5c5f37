import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest';
import { tableNames, tableShape } from '../../apps/api/src/db/portable/shape.ts';
import { quotedName } from '../../apps/api/src/db/quoted-name.ts';
import { photoDirOf } from '../../apps/api/src/photos/shelf.ts';
import { type BringBackOptions, bringBack } from '../../apps/api/src/services/bring-back/bring-back.ts';
import { columnWords, EXPORTED, LEFT_OUT } from '../../apps/api/src/services/export/dictionary/registry.ts';
import { MIGRATIONS_DIR, openEmpty, PEOPLE, uuid } from '../cast.ts';
import { exportTo, type Files, filesOf, laid, olderFiles, renamed, sealed, sha256Of, spoiled, zipBytes } from './export-zip.ts';
import { openStage, type Stage } from './hostile/stage.ts';

let stage: Stage;
let dir: string;
/** The export of a programme with one of everything. */
let zip: string;
let files: Files;
const text = (name: string): string => files.get(name)!.toString('utf8');
const rowsOf = (table: string): Record<string, unknown>[] => JSON.parse(text(`data/${table}.json`));

beforeAll(async () => {
  stage = await openStage();
  // The stage calls itself a demonstration, which never becomes a programme of somebody's own.
  stage.cast.store.sqlite.exec('UPDATE programme SET is_demo = 0');
  addSecrets(stage.cast);
  dir = mkdtempSync(join(tmpdir(), 'middenry-export-'));
  zip = join(dir, 'all.zip');
  const { store, clock, app } = stage.cast;
  await exportTo(zip, { file: store.sqlite.name, photoDir: photoDirOf(app.middenry.config), now: clock.at });
  files = await filesOf(zip);
});
afterAll(async () => {
  await stage.cast.close();
  rmSync(dir, { recursive: true, force: true });
});

describe('what the export says of itself (G5)', () => {
  it('knows every table of the store, and no other', () => {
    const said = [...EXPORTED.map(({ table }) => table), ...Object.keys(LEFT_OUT)];
    expect(said.sort()).toEqual(tableNames(stage.cast.store.sqlite));
  });

  it('has words for every column, with the unit where there is one', () => {
    const unsaid: string[] = [];
    for (const words of EXPORTED) {
      const columns = tableShape(stage.cast.store.sqlite, words.table).columns.map(({ name }) => name);
      for (const name of columns.filter((column) => words.leftOut?.[column] === undefined)) {
        const said = columnWords(words, name) ?? '';
        if (said === '' || (/_(g|c|m|m2|ml|s|minutes)$|^(grams|minutes|bytes)$/.test(name) && !said.includes('[')))
          unsaid.push(`${words.table}.${name}`);
      }
      const known = [...Object.keys(words.columns), ...Object.keys(words.leftOut ?? {})];
      unsaid.push(...known.filter((name) => !columns.includes(name)).map((name) => `${words.table}.${name} is no column`));
    }
    expect(unsaid).toEqual([]);
  });

  it('tells in its readme of every table and of all that is left out', () => {
    const readme = text('README.md');
    for (const { table } of EXPORTED) expect(readme).toContain(`### ${table}\n`);
    for (const table of Object.keys(LEFT_OUT)) expect(readme).toContain(`* \`${table}\``);
    expect(readme).not.toContain('undefined');
  });
});

describe('the zip (G2)', () => {
  it('has a checksum for every file, and each is right', () => {
    const lines = text('checksums.sha256').trimEnd().split('\n');
    expect(lines.map((line) => line.slice(66)).sort()).toEqual([...files.keys()].filter((name) => name !== 'checksums.sha256').sort());
    for (const line of lines) expect(line.slice(0, 64)).toBe(sha256Of(files.get(line.slice(66))!));
  });

  it('has tables that another CSV reader reads by their Table Schema, key and references included', () => {
    const { resources } = JSON.parse(text('datapackage.json'));
    expect(resources.map((one: { name: string }) => one.name)).toEqual(EXPORTED.map(({ table }) => table));
    const read = new Map<string, Record<string, string>[]>();
    for (const one of resources) {
      const rows = parse(files.get(one.path)!, { columns: true, bom: true, relax_column_count: false }) as Record<string, string>[];
      read.set(one.name, rows);
      expect(one.hash).toBe(`sha256:${sha256Of(files.get(one.path)!)}`);
      expect(rows.length).toBe(rowsOf(one.name).length);
      const keys = rows.map((row) => one.schema.primaryKey.map((column: string) => row[column]).join('|'));
      expect(new Set(keys).size).toBe(rows.length);
      for (const field of one.schema.fields) expect([one.name, field.name, misfit(rows, field)]).toEqual([one.name, field.name, undefined]);
    }
    for (const one of resources)
      for (const { fields, reference } of one.schema.foreignKeys ?? []) {
        const there = new Set(read.get(reference.resource)!.map((row) => row[reference.fields]));
        const lost = read.get(one.name)!.filter((row) => row[fields] !== '' && !there.has(row[fields]));
        expect([one.name, fields, lost]).toEqual([one.name, fields, []]);
      }
    expect(read.get('entry')!.length).toBeGreaterThan(0);
    expect(read.get('photo')!.length).toBe(2);
  });

  it('is what a coordinator gets, is told in the audit, and is for nobody else', async () => {
    const answer = await stage.cast.call('coordinator', 'GET', '/api/export.zip');
    expect(answer.status).toBe(200);
    expect(answer.headers).toMatchObject({
      'content-type': 'application/zip',
      'content-disposition': 'attachment; filename="two-gardens-2026-11-25.zip"',
    });
    const audit = await stage.cast.call('owner', 'GET', '/api/audit?limit=1');
    expect(audit.body.items[0]).toMatchObject({ action: 'programme.exported', by: { name: 'Teodor Wrenfield' } });
    for (const who of ['siteLead', 'volunteer', 'pupil'] as const)
      expect((await stage.cast.call(who, 'GET', '/api/export.zip')).status).toBe(403);
  });

  it('E26: holds no secret that the store does', () => {
    const { sqlite } = stage.cast.store;
    const secrets = SECRETS.flatMap(([table, column]) =>
      (sqlite.prepare(`SELECT * FROM ${quotedName(table)}`).all() as Record<string, unknown>[]).map((row) => ({
        table,
        secret: row[column],
      })),
    );
    const known = secrets.flatMap(({ table, secret }) => (typeof secret === 'string' ? [{ table, secret }] : []));
    expect([...new Set(known.map(({ table }) => table))].sort()).toEqual([...new Set(SECRETS.map(([table]) => table))].sort());
    const all = [...files.values()].map((bytes) => bytes.toString('latin1')).join('\n');
    expect(all).toContain('Teodor Wrenfield');
    expect(known.filter(({ secret }) => all.includes(secret))).toEqual([]);
  });
});

/** Where the store keeps what lets somebody in; in each there is at least one. */
const SECRETS = [
  ['credential', 'secret'],
  ['sign_in_session', 'token_hash'],
  ['invite', 'token_hash'],
  ['device_code', 'code_hash'],
  ['link', 'token_hash'],
  ['message_setting', 'code_hash'],
  ['mail', 'reply_hash'],
  ['mail', 'secret'],
] as const;

/** Ways in of every kind that the stage has not made by itself. */
function addSecrets({ store, clock }: Stage['cast']): void {
  const at = clock.at.toISOString();
  const until = '2026-11-26T10:00:00.000Z';
  const hash = (of: string) => sha256Of(Buffer.from(of));
  const { sqlite } = store;
  sqlite
    .prepare('INSERT INTO device_code (id, person_id, code_hash, created_at, expires_at) VALUES (?, ?, ?, ?, ?)')
    .run(uuid(901), PEOPLE.volunteer.id, hash('device'), at, until);
  sqlite
    .prepare('INSERT OR REPLACE INTO message_setting (person_id, address, code_hash, code_until) VALUES (?, ?, ?, ?)')
    .run(PEOPLE.volunteer.id, 'otis@example.org', hash('address'), until);
  sqlite
    .prepare(`INSERT INTO mail (id, kind, person_id, address, made_at, next_try_at, good_until, reply_hash, secret)
      VALUES (?, 'code', ?, 'otis@example.org', ?, ?, ?, ?, 'canary-481516')`)
    .run(uuid(902), PEOPLE.volunteer.id, at, at, until, hash('reply'));
  sqlite.prepare("INSERT INTO link (id, kind, token_hash, created_at) VALUES (?, 'board', ?, ?)").run(uuid(903), hash('link'), at);
  sqlite
    .prepare("INSERT INTO invite (id, token_hash, role, created_at, expires_at) VALUES (?, ?, 'volunteer', ?, ?)")
    .run(uuid(904), hash('invite'), at, until);
}

interface Field {
  readonly name: string;
  readonly type: string;
  readonly constraints?: { readonly required?: boolean };
}
const SHAPES: Readonly<Record<string, RegExp>> = {
  integer: /^-?\d+$/,
  number: /^-?\d+(\.\d+)?(e[-+]?\d+)?$/,
  date: /^\d{4}-\d\d-\d\d$/,
  datetime: /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/,
  string: /^/,
};
const misfit = (rows: readonly Record<string, string>[], { name, type, constraints }: Field): string | undefined =>
  rows.map((row) => row[name]!).find((value) => (value === '' ? constraints?.required : !SHAPES[type]!.test(value)));

let home = 0;
/** An empty place, with no programme in it. */
function placeFor(file: string, isDemo = false): BringBackOptions {
  home += 1;
  const at = join(dir, `home-${home}`);
  const now = new Date('2026-11-26T08:00:00.000Z');
  return {
    zip: file,
    file: join(at, 'own.db'),
    photoDir: join(at, 'own-photos'),
    copyDir: join(at, 'backups'),
    migrationsDir: MIGRATIONS_DIR,
    now,
    isDemo,
    known: [],
  };
}

describe('bringBack()', () => {
  it('G1: gives a programme whose export is the same, ids and photos included', async () => {
    const place = placeFor(zip);
    const { head } = await bringBack(place);
    expect(head.rows.entry).toBe(rowsOf('entry').length);
    const again = join(dir, 'again.zip');
    await exportTo(again, { ...place, now: new Date('2026-11-27T08:00:00.000Z') });
    const other = await filesOf(again);
    const same = (name: string) => /^(data|tables|photos)\//.test(name);
    expect([...other.keys()].filter(same)).toEqual([...files.keys()].filter(same));
    for (const name of [...files.keys()].filter(same)) expect([name, other.get(name)!.equals(files.get(name)!)]).toEqual([name, true]);
    expect(readdirSync(place.photoDir).length).toBe(2);
  });

  it('G3: reads an export of an earlier schema and brings it to today', async () => {
    const older = olderFiles(files, dir, 14);
    const place = placeFor(laid(dir, 'older.zip', await zipBytes(sealed(older))));
    expect((await bringBack(place)).head.schema).toBe(14);
    const again = join(dir, 'older-again.zip');
    await exportTo(again, { ...place, now: place.now });
    const other = await filesOf(again);
    expect(other.get('data/entry.json')!.equals(files.get('data/entry.json')!)).toBe(true);
    expect(other.get('data/flag_note.json')!.toString()).toBe('[]\n');
  });

  const head = (change: object) => (json: string) => JSON.stringify({ ...JSON.parse(json), ...change });
  const firstEntry = (change: object) => (json: string) => {
    const [first, ...rest] = JSON.parse(json);
    return `[\n${[{ ...first, ...change }, ...rest].map((row) => JSON.stringify(row)).join(',\n')}\n]\n`;
  };
  const tampered = (name: string, change: (text: string) => string | null) => () => zipBytes(sealed(spoiled(files, name, change)));
  const BOMB_BYTES = 2 * 1024 * 1024;
  const refused: readonly (readonly [what: string, make: () => Buffer | Promise<Buffer>, says: RegExp])[] = [
    ['no zip at all', () => Buffer.from('a letter'), /as a zip/],
    ['half a zip', async () => (await zipBytes(files)).subarray(0, 20_000), /as a zip/],
    ['a name that leads out', async () => renamed(await zipBytes(files), 'README.md', '../../a.md'.slice(1)), /not sound|no export does/],
    ['a name from the root', async () => renamed(await zipBytes(files), 'README.md', '/etc/a.md'), /not sound|no export does/],
    ['a program beside the tables', async () => zipBytes([...files, ['run.sh', Buffer.from('#!')]]), /no export does/],
    ['a file twice', async () => zipBytes([...files, ['README.md', Buffer.from('again')]]), /twice/],
    ['a bomb', async () => zipBytes([...files, ['tables/bomb.csv', Buffer.alloc(BOMB_BYTES)]]), /far more/],
    ['a changed table', async () => zipBytes(spoiled(files, 'data/entry.json', (json) => json.replace('2026', '2025'))), /by its checksum/],
    ['a file without checksum', async () => zipBytes([...files, ['tables/other.csv', Buffer.from('a\r\n')]]), /no checksum/],
    ['a missing table', async () => zipBytes(spoiled(files, 'data/bin.json', () => null)), /lacks data\/bin.json/],
    ['a newer format', tampered('export.json', head({ format: 2 })), /newer Middenry/],
    ['a newer schema', tampered('export.json', head({ schema: 9999 })), /newer Middenry/],
    ['a head of something else', tampered('export.json', () => '{"hello":1}'), /not as Middenry writes it/],
    [
      'a secret table',
      tampered('export.json', (json) => head({ rows: { ...JSON.parse(json).rows, credential: 1 } })(json)),
      /a table credential/,
    ],
    ['a secret column', tampered('data/message_setting.json', firstEntry({ code_hash: 'a'.repeat(64) })), /"code_hash"/],
    ['fewer rows than it says', tampered('data/audit.json', () => '[]\n'), /0 rows instead of/],
    ['a row that breaks a check', tampered('data/entry.json', firstEntry({ kind: 'party' })), /row 1 of data\/entry.json breaks a rule/],
    ['a row that points at nothing', tampered('data/entry.json', firstEntry({ bin_id: uuid(999_999) })), /names a bin that is not in it/],
    ['rows that are no rows', tampered('data/site.json', () => '[\n[1]\n]\n'), /not as Middenry writes it/],
    ['a photo that is no picture', async () => picture(Buffer.from('<html>')), /not the picture/],
    ['a demonstration that says it is none', tampered('data/programme.json', firstEntry({ is_demo: 1 })), /demonstration/],
  ];
  const LAST_REFUSED = refused.at(-1)![0];
  async function picture(bytes: Buffer): Promise<Buffer> {
    const name = [...files.keys()].find((one) => one.startsWith('photos/'))!;
    const rows = spoiled(files, 'data/photo.json', (json) =>
      json.replace(/\{[^}]*\}/g, (row) => {
        const photo = JSON.parse(row);
        return JSON.stringify(name.endsWith(photo.file) ? { ...photo, bytes: bytes.length, sha256: sha256Of(bytes) } : photo);
      }),
    );
    return zipBytes(sealed(new Map([...rows, [name, bytes]])));
  }

  test.each(refused)('G4, G11: refuses %s in words and leaves nothing behind', async (what, make, says) => {
    const place = placeFor(laid(dir, `${what.replaceAll(' ', '-')}.zip`, await make()));
    const words = await bringBack(place).then(
      () => 'was taken',
      (error: Error) => error.message,
    );
    expect(words).toMatch(says);
    expect(words).toMatch(/^[A-Z].*: [a-z ]+.*\.$/);
    expect([place.file, place.photoDir, `${place.file}.part`, `${place.photoDir}.part`].filter((path) => existsSync(path))).toEqual([]);
    // The second try is the same for all, so one of them shows it.
    if (what === LAST_REFUSED) expect((await bringBack({ ...place, zip })).head.format).toBe(1);
  });

  it('goes into an empty store that a server began, and into no other', async () => {
    const empty = await openEmpty();
    const file = empty.store.sqlite.name;
    const place = { ...placeFor(zip), file, photoDir: join(empty.dir, 'own-photos') };
    empty.store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
    await bringBack(place);
    await expect(bringBack(place)).rejects.toThrow(/has begun here already/);
    await expect(bringBack(placeFor(zip, true))).rejects.toThrow(/leave out --demo/);
    await empty.close();
  });
});
