/** A workbook is a zip from anywhere: it is unpacked here with a limit, so that what reads it meets no bomb (criteria G11). */
import yauzl from 'yauzl';
import yazl from 'yazl';

const MOST_BYTES = 48 * 1024 * 1024;
const MOST_ENTRIES = 2000;
/** Cells, texts, formats and how they hang together; no pictures, no programs, no links to elsewhere. */
const WANTED =
  /^(\[Content_Types\]\.xml|_rels\/\.rels|xl\/(workbook\.xml|sharedStrings\.xml|styles\.xml|_rels\/workbook\.xml\.rels|worksheets\/sheet\d+\.xml))$/i;

/** The same workbook with only the parts that hold cells, lying open. @throws {RangeError} when it is none, or too large */
export async function unpackedWorkbook(bytes: Buffer): Promise<Buffer> {
  const zip = await yauzl.fromBufferPromise(bytes, { lazyEntries: true, validateEntrySizes: true });
  if (zip.entryCount > MOST_ENTRIES)
    throw new RangeError(`Cannot read the workbook as it has too many parts: current value is ${zip.entryCount}`);
  const out = new yazl.ZipFile();
  let total = 0;
  for await (const entry of zip.eachEntry()) {
    if (!WANTED.test(entry.fileName)) continue;
    const pieces: Buffer[] = [];
    for await (const piece of await zip.openReadStreamPromise(entry)) {
      total += (piece as Buffer).length;
      if (total > MOST_BYTES)
        throw new RangeError(`Cannot read the workbook as it unpacks to too much: current value is over ${MOST_BYTES} bytes`);
      pieces.push(piece as Buffer);
    }
    out.addBuffer(Buffer.concat(pieces), entry.fileName, { compress: false });
  }
  out.end();
  const pieces: Buffer[] = [];
  for await (const piece of out.outputStream) pieces.push(piece as Buffer);
  return Buffer.concat(pieces);
}
