/** LibreOffice without a window, as a second pair of eyes on what our files hold. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, extname, join } from 'node:path';

const MOST_MS = 300_000;
const UTF8 = 76;
const ENGLISH_US = 1033;

/** Opened as a person of that country would, who lets the program look for numbers and formulas. */
export const csvFilter = (separator: ',' | ';' | '\t'): string =>
  `CSV:${[separator.charCodeAt(0), 34, UTF8, 1, '', ENGLISH_US, false, true, false, false, false, 0, true].join(',')}`;

export interface SofficeCell {
  readonly formula: string | null;
  /** `float` and `date` are values, `string` is text. */
  readonly type: string | null;
  readonly value: string | null;
  readonly text: string;
}

/** @throws {Error} when LibreOffice is not there or could not open a file */
export function soffice(files: readonly string[], to: string, filter?: string): Map<string, string> {
  const dir = mkdtempSync(join(tmpdir(), 'soffice-'));
  try {
    const infilter = filter === undefined ? [] : [`--infilter=${filter}`];
    const profile = `-env:UserInstallation=file://${join(dir, 'profile')}`;
    const args = [profile, '--headless', '--norestore', ...infilter, '--convert-to', to, '--outdir', dir, ...files];
    const run = spawnSync('soffice', args, { timeout: MOST_MS, encoding: 'utf8' });
    if (run.error !== undefined && 'code' in run.error && run.error.code === 'ENOENT')
      throw new Error('LibreOffice is not on this machine: apt-get install --no-install-recommends libreoffice-calc');
    if (run.status !== 0) throw new Error(`soffice ended with ${run.status}: ${run.stderr}`);
    const made = (file: string) => join(dir, `${basename(file, extname(file))}.${to}`);
    return new Map(files.map((file) => [basename(file), readFileSync(made(file), 'utf8')]));
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
const plain = (xml: string): string =>
  xml
    .replace(/<[^>]*>/g, '')
    .replace(/&(#x?)?(\w+);/g, (_, mark: string | undefined, name: string) =>
      mark === undefined ? (ENTITIES[name] ?? '') : String.fromCodePoint(Number.parseInt(name, mark === '#x' ? 16 : 10)),
    );

/** Cells of a flat OpenDocument spreadsheet that hold something. */
export function cellsOf(flatOds: string): SofficeCell[] {
  return [...flatOds.matchAll(/<table:table-cell\b([^>]*?)(?:\/>|>([\s\S]*?)<\/table:table-cell>)/g)].flatMap(
    ([, head = '', body = '']) => {
      const attribute = (name: string) => new RegExp(`${name}="([^"]*)"`).exec(head)?.[1] ?? null;
      const type = attribute('office:value-type');
      const formula = attribute('table:formula');
      if (type === null && formula === null) return [];
      // Equal cells that stand side by side are written once.
      const times = Number(attribute('table:number-columns-repeated') ?? 1);
      return Array.from({ length: times }, () => ({ formula, type, value: attribute('office:value'), text: plain(body).trim() }));
    },
  );
}
