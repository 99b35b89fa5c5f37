/** Workbooks written by hand, by ECMA-376 part 1 (18.3.1.4 cells, 18.3.1.40 formulas), with cells that no honest program writes. */
import yazl from 'yazl';

const PARTS = 'http://schemas.openxmlformats.org/package/2006';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const SHEET_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

const relations = (type: string, target: string): string =>
  `<Relationships xmlns="${PARTS}/relationships"><Relationship Id="r1" Type="${OFFICE}/${type}" Target="${target}"/></Relationships>`;

export const textCell = (at: string, text: string): string => `<c r="${at}" t="inlineStr"><is><t>${text}</t></is></c>`;

/** @param rows `<row>` elements */
export async function formulaBook(rows: string): Promise<Buffer> {
  const zip = new yazl.ZipFile();
  const parts: Readonly<Record<string, string>> = {
    '[Content_Types].xml': `<Types xmlns="${PARTS}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="${SHEET_TYPE}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="${SHEET_TYPE}.worksheet+xml"/></Types>`,
    '_rels/.rels': relations('officeDocument', 'xl/workbook.xml'),
    'xl/workbook.xml': `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets><sheet name="S" sheetId="1" r:id="r1"/></sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': relations('worksheet', 'worksheets/sheet1.xml'),
    'xl/worksheets/sheet1.xml': `<worksheet xmlns="${MAIN}"><sheetData>${rows}</sheetData></worksheet>`,
    // Where a link leads: it must not be followed.
    'xl/externalLinks/externalLink1.xml': `<externalLink xmlns="${MAIN}"/>`,
  };
  for (const [name, text] of Object.entries(parts)) zip.addBuffer(Buffer.from(text), name);
  zip.end();
  const pieces: Buffer[] = [];
  for await (const piece of zip.outputStream) pieces.push(piece as Buffer);
  return Buffer.concat(pieces);
}
