import { Readable } from 'node:stream';
import type { Signed } from '../../context.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import { write } from '../../db/store.ts';
import { photoDirOf } from '../../photos/shelf.ts';
import type { Soundness } from '../soundness.ts';
import { exportProgramme } from './write-zip.ts';

/** Everything leaves with this file, so it is told in the audit before the first byte of it. */
export function beginExport(call: Signed): { readonly name: string; readonly stream: Readable } {
  const { store, config, now, soundness } = call;
  write(store, () => call.audit('programme.exported', findProgramme(store)?.id));
  const { head, stream } = exportProgramme({ file: store.sqlite.name, photoDir: photoDirOf(config), now });
  return {
    name: exportFileName(head.programme, now),
    stream: soundness === undefined ? stream : Readable.from(endedIfSound(stream, soundness)),
  };
}

/**
 * Without its last piece no program opens a zip: that one goes out only when the store was found sound after all of it
 * was read. An export takes minutes, and a page may go wrong meanwhile (criteria F11).
 *
 * @throws {Error} where it was not
 */
async function* endedIfSound(stream: Readable, soundness: Soundness): AsyncGenerator<Buffer> {
  let last: Buffer | undefined;
  for await (const piece of stream) {
    if (last !== undefined) yield last;
    last = piece as Buffer;
  }
  if (!(await soundness.sure())) throw new Error('the store is damaged, so the export is not ended');
  if (last !== undefined) yield last;
}

/** Letters and digits that every file system takes. */
export function exportFileName(programme: string, now: Date): string {
  const plain = programme.normalize('NFKD').replace(/[^A-Za-z0-9]+/g, '-');
  return `${plain.replace(/^-|-$/g, '').toLowerCase() || 'programme'}-${now.toISOString().slice(0, 10)}.zip`;
}
