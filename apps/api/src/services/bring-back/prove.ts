/** Shows that a zip is a whole export of ours that this program can read, before anything is made of it. */
import { CHECKSUMS_NAME, EXPORT_FORMAT, type ExportHead, HEAD_NAME } from '../export/format.ts';
import type { OpenZip } from './open-zip.ts';
import { refuseFile } from './refusal.ts';

const MOST_HEAD_BYTES = 1024 * 1024;
const MOST_CHECKSUM_BYTES = 32 * 1024 * 1024;
const CHECKSUM_LINE = /^([0-9a-f]{64}) {2}(\S+)$/;

/** @throws {BringBackRefusal} when it is of a newer program, or its head is not one of ours */
export async function readHead(zip: OpenZip, newestSchema: number): Promise<ExportHead> {
  const head = headIn(await zip.text(HEAD_NAME, MOST_HEAD_BYTES));
  if (head.format > EXPORT_FORMAT || head.schema > newestSchema) throw refuseFile((w) => w.newer());
  return head;
}

function headIn(text: string): ExportHead {
  try {
    const head = JSON.parse(text) as ExportHead;
    const counts = Object.values(head.rows);
    const isTold = typeof head.programme === 'string' && !Number.isNaN(Date.parse(head.madeAt));
    const isSound = [head.format, head.schema, head.photos, head.photosLost, ...counts].every(
      (value) => Number.isInteger(value) && value >= 0,
    );
    if (isTold && isSound && head.format > 0 && head.schema > 0 && typeof head.isDemo === 'boolean') return head;
  } catch {
    // Said below.
  }
  throw refuseFile((w) => w.notOurs(HEAD_NAME));
}

/**
 * Compares every file with its checksum.
 *
 * @throws {BringBackRefusal} when one differs, is missing, or is in no list
 */
export async function proveChecksums(zip: OpenZip): Promise<void> {
  const lines = (await zip.text(CHECKSUMS_NAME, MOST_CHECKSUM_BYTES)).split('\n').filter((line) => line !== '');
  const wanted = new Map<string, string>();
  for (const line of lines) {
    const [, sha256, name] = CHECKSUM_LINE.exec(line) ?? [];
    if (sha256 === undefined || name === undefined) throw refuseFile((w) => w.unreadable(CHECKSUMS_NAME));
    wanted.set(name, sha256);
  }
  const unlisted = zip.names.filter((name) => name !== CHECKSUMS_NAME && !wanted.has(name));
  if (unlisted[0] !== undefined) throw refuseFile((w) => w.noChecksum(unlisted[0]!));
  for (const [name, sha256] of wanted) {
    if ((await zip.hash(name)) !== sha256) throw refuseFile((w) => w.otherChecksum(name));
  }
}
