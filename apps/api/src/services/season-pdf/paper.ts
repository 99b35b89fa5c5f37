/** A tagged document of headings, paragraphs, tables and bars: what is drawn and is not of the text is marked as such. */
import { useFaces } from './faces.ts';

const MARGIN_PT = 42;
const TEXT_PT = 10;
const TABLE_PT = 9;
const HEADING_PT = { H1: 20, H2: 13 } as const;
const CELL_GAP_PT = 6;
const ROW_GAP_PT = 3;
const NAME_SHARE = 0.3;
const NAME_SHARE_OF_FEW = 0.46;
const FEW_COLUMNS = 3;
const BAR_PT = { height: 7, gap: 3, month: 8, name: 62, legend: 16 } as const;
const INK = '#1c1c1a';
const SHADES = ['#24221e', '#c4bdae', '#857d6c'] as const;

export interface PaperTable {
  /** Left out where the heading above says it already. */
  readonly caption?: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Whether the last row is the sum of the others. */
  readonly summed: boolean;
}
export interface PaperBars {
  readonly says: string;
  readonly names: readonly string[];
  readonly groups: readonly { readonly name: string; readonly values: readonly number[] }[];
}
export interface Paper {
  heading(level: 'H1' | 'H2', text: string): void;
  paragraph(text: string): void;
  table(table: PaperTable): void;
  bars(bars: PaperBars): void;
  /** Whether anything so far holds a sign that cannot be printed; NO_SIGN stands for it. */
  lacks(): boolean;
  /** @param footer what stands at the foot of each page */
  finish(footer: (page: number, pages: number) => string): Promise<Buffer>;
}

interface Head {
  readonly title: string;
  readonly language: string;
  readonly madeAt: Date;
}
type Doc = PDFKit.PDFDocument;
/** Marked as `Artifact`: no reader speaks it. */
const beside = (doc: Doc, draw: () => void): void => {
  doc.markContent('Artifact');
  draw();
  doc.endMarkedContent();
};

export async function newPaper({ title, language, madeAt }: Head): Promise<Paper> {
  // Read in at the first report: it takes a tenth of the memory of the whole server.
  const { default: PDFDocument } = await import('pdfkit');
  const doc = new PDFDocument({
    ...{ size: 'A4', margin: MARGIN_PT, bufferPages: true, pdfVersion: '1.7', tagged: true, displayTitle: true, lang: language },
    ...({ subset: 'PDF/UA' } as object),
    info: { Title: title, Author: 'Middenry', CreationDate: madeAt, ModDate: madeAt },
  });
  const lacks = useFaces(doc);
  const chunks: Buffer[] = [];
  doc.on('data', (chunk: Buffer) => chunks.push(chunk));
  const ended = new Promise<Buffer>((resolve) => doc.once('end', () => resolve(Buffer.concat(chunks))));
  const root = doc.struct('Document');
  doc.addStructure(root);
  const write = (tag: string, font: string, size: number, text: string) =>
    root.add(doc.struct(tag, {}, () => void doc.font(font).fontSize(size).fillColor(INK).text(text, MARGIN_PT)));
  return {
    heading(level, text) {
      doc.moveDown(level === 'H1' ? 0 : 1);
      keepTogether(doc, HEADING_PT[level] * 4);
      write(level, 'bold', HEADING_PT[level], text);
      doc.moveDown(0.3);
    },
    paragraph(text) {
      write('P', 'text', TEXT_PT, text);
      doc.moveDown(0.4);
    },
    table: (table) => drawTable(doc, root, table),
    bars: (bars) => drawBars(doc, root, bars),
    lacks,
    finish(footer) {
      root.end();
      const { start, count } = doc.bufferedPageRange();
      for (let page = start; page < start + count; page += 1) {
        doc.switchToPage(page);
        beside(doc, () => drawFooter(doc, footer(page + 1, count)));
      }
      doc.end();
      return ended;
    },
  };
}

function keepTogether(doc: Doc, heightPt: number): void {
  if (doc.y + heightPt > doc.page.height - MARGIN_PT) doc.addPage();
}

function drawFooter(doc: Doc, text: string): void {
  // Below the margin there is no room by rule, so that the line would begin a page of its own.
  const { bottom } = doc.page.margins;
  doc.page.margins.bottom = 0;
  doc
    .font('text')
    .fontSize(TABLE_PT)
    .fillColor(INK)
    .text(text, MARGIN_PT, doc.page.height - MARGIN_PT + CELL_GAP_PT, { lineBreak: false });
  doc.page.margins.bottom = bottom;
}

const widthOf = (doc: Doc): number => doc.page.width - 2 * MARGIN_PT;

function drawTable(doc: Doc, root: PDFKit.PDFStructureElement, { caption, heads, rows, summed }: PaperTable): void {
  const table = doc.struct('Table');
  root.add(table);
  const firstPt = widthOf(doc) * (heads.length <= FEW_COLUMNS ? NAME_SHARE_OF_FEW : NAME_SHARE);
  const restPt = (widthOf(doc) - firstPt) / (heads.length - 1);
  if (caption !== undefined)
    table.add(doc.struct('Caption', {}, () => void doc.font('text').fontSize(TABLE_PT).fillColor(INK).text(caption, MARGIN_PT)));
  const heightOf = (cells: readonly string[], font: string) => {
    doc.font(font).fontSize(TABLE_PT);
    const heights = cells.map((cell, at) => doc.heightOfString(cell, { width: (at === 0 ? firstPt : restPt) - CELL_GAP_PT }));
    return Math.max(...heights) + ROW_GAP_PT;
  };
  const drawCells = (cells: readonly string[], font: string, top: number, put: (at: number, draw: () => void) => void) => {
    cells.forEach((cell, at) => {
      const left = at === 0 ? MARGIN_PT : MARGIN_PT + firstPt + (at - 1) * restPt;
      const options = { width: (at === 0 ? firstPt : restPt) - CELL_GAP_PT, align: at === 0 ? 'left' : 'right' } as const;
      put(at, () => void doc.font(font).fontSize(TABLE_PT).fillColor(INK).text(cell, left, top, options));
    });
  };
  const line = (cells: readonly string[], kind: 'head' | 'row' | 'sum', next?: readonly string[]) => {
    const font = kind === 'row' ? 'text' : 'bold';
    const height = heightOf(cells, font);
    const together = height + (next === undefined ? 0 : heightOf(next, 'bold'));
    if (doc.y + together > doc.page.height - MARGIN_PT) {
      doc.addPage();
      // Seen again on each page, read once.
      if (kind !== 'head') {
        const top = doc.y;
        beside(doc, () => drawCells(heads, 'bold', top, (_, draw) => draw()));
        ruleAt(doc, top + heightOf(heads, 'bold'));
      }
    }
    const top = doc.y;
    if (kind === 'sum') ruleAt(doc, top - ROW_GAP_PT / 2);
    const row = doc.struct('TR');
    table.add(row);
    drawCells(cells, font, top, (at, draw) => {
      const scope = kind === 'head' ? 'Column' : 'Row';
      row.add(at === 0 || kind === 'head' ? doc.struct('TH', { scope } as object, draw) : doc.struct('TD', {}, draw));
    });
    row.end();
    if (kind === 'head') ruleAt(doc, top + height);
    else doc.y = top + height;
  };
  // A head goes on overleaf with its first row, and no sum stands there alone.
  line(heads, 'head', rows[0]);
  rows.forEach((row, at) => {
    line(row, summed && at === rows.length - 1 ? 'sum' : 'row', summed && at === rows.length - 2 ? rows[at + 1] : undefined);
  });
  table.end();
  doc.moveDown(0.6);
}

/** A hairline; what comes next stands below it. */
function ruleAt(doc: Doc, y: number): void {
  beside(doc, () => {
    doc
      .moveTo(MARGIN_PT, y)
      .lineTo(doc.page.width - MARGIN_PT, y)
      .lineWidth(0.6)
      .strokeColor(INK)
      .stroke();
  });
  doc.y = y + ROW_GAP_PT;
}

function drawBars(doc: Doc, root: PDFKit.PDFStructureElement, { says, names, groups }: PaperBars): void {
  const most = Math.max(...groups.flatMap(({ values }) => values), 1);
  const groupPt = names.length * (BAR_PT.height + BAR_PT.gap) + BAR_PT.month;
  // More months than a page holds go on in a picture on the next one.
  for (let rest = groups; rest.length > 0; ) {
    keepTogether(doc, BAR_PT.legend + groupPt);
    const top = doc.y + BAR_PT.legend;
    const shown = rest.slice(0, Math.max(1, Math.floor((doc.page.height - MARGIN_PT - top) / groupPt)));
    const end = top + shown.length * groupPt;
    const bbox = [MARGIN_PT, doc.y, doc.page.width - MARGIN_PT, end];
    const draw = () => {
      drawLegend(doc, names, top - BAR_PT.legend);
      shown.forEach((group, at) => {
        drawGroup(doc, group, top + at * groupPt, most);
      });
    };
    root.add(doc.struct('Figure', { alt: says, bbox } as object, draw));
    doc.y = end;
    rest = rest.slice(shown.length);
  }
}

function drawLegend(doc: Doc, names: readonly string[], top: number): void {
  doc.font('text').fontSize(TABLE_PT);
  let left = MARGIN_PT + BAR_PT.name;
  names.forEach((name, at) => {
    doc.rect(left, top + 2, BAR_PT.height, BAR_PT.height).fill(SHADES[at] ?? INK);
    left += BAR_PT.height + BAR_PT.gap;
    doc.fillColor(INK).text(name, left, top, { lineBreak: false });
    left += doc.widthOfString(name) + 2 * CELL_GAP_PT;
  });
}

function drawGroup(doc: Doc, { name, values }: PaperBars['groups'][number], top: number, most: number): void {
  doc.font('text').fontSize(TABLE_PT).fillColor(INK).text(name, MARGIN_PT, top, { width: BAR_PT.name, lineBreak: false });
  const room = widthOf(doc) - BAR_PT.name;
  values.forEach((value, at) => {
    const y = top + at * (BAR_PT.height + BAR_PT.gap);
    if (value > 0) doc.rect(MARGIN_PT + BAR_PT.name, y, (room * value) / most, BAR_PT.height).fill(SHADES[at] ?? INK);
  });
}
