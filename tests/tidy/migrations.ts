import { createHash } from 'node:crypto';

export interface Migrations {
  /** Text of each `.sql` file by its name. */
  readonly files: ReadonlyMap<string, string>;
  /** Hash of each file that has gone out, by its name, as `migrations/released.json` has them. */
  readonly released: Readonly<Record<string, string>>;
}

const namePattern = /^(\d{4})_[a-z0-9]+(_[a-z0-9]+)*\.sql$/;

export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

/** F34: what has gone out never changes, and what comes next comes after it. */
export function migrationComplaints({ files, released }: Migrations): string[] {
  const names = [...files.keys()].sort();
  const found: string[] = [];
  names.forEach((name, index) => {
    const number = name.match(namePattern)?.[1];
    if (number === undefined) found.push(`${name}: call it NNNN_<what_changed>.sql`);
    else if (Number(number) !== index + 1)
      found.push(`${name}: expected number ${index + 1}; numbers run from 0001 without gaps or doubles`);
  });
  for (const [name, hash] of Object.entries(released)) {
    const text = files.get(name);
    if (text === undefined) found.push(`${name}: was released and is gone; bring it back`);
    else if (sha256(text) !== hash) found.push(`${name}: was released and then changed; bring it back and write a new migration`);
  }
  const last = Object.keys(released).sort().at(-1) ?? '';
  for (const name of names) {
    if (name < last && !(name in released)) found.push(`${name}: comes before ${last}, which is released; give it the next number`);
  }
  return found;
}
