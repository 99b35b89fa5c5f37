import type { Readable } from 'node:stream';
import type { Signed } from '../../context.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import { write } from '../../db/store.ts';
import { photoDirOf } from '../../photos/shelf.ts';
import { exportProgramme } from './write-zip.ts';

/** Everything leaves with this file, so it is told in the audit before the first byte of it. */
export function beginExport(call: Signed): { readonly name: string; readonly stream: Readable } {
  const { store, config, now } = call;
  write(store, () => call.audit('programme.exported', findProgramme(store)?.id));
  const { head, stream } = exportProgramme({ file: store.sqlite.name, photoDir: photoDirOf(config), now });
  return { name: exportFileName(head.programme, now), stream };
}

/** Letters and digits that every file system takes. */
export function exportFileName(programme: string, now: Date): string {
  const plain = programme.normalize('NFKD').replace(/[^A-Za-z0-9]+/g, '-');
  return `${plain.replace(/^-|-$/g, '').toLowerCase() || 'programme'}-${now.toISOString().slice(0, 10)}.zip`;
}
