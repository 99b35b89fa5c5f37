/**
 * RFC 4180 read strictly: https://www.rfc-editor.org/rfc/rfc4180, section 2.
 *
 *   file = [header CRLF] record *(CRLF record) [CRLF]
 *   escaped = DQUOTE *(TEXTDATA / COMMA / CR / LF / 2DQUOTE) DQUOTE
 *   non-escaped = *TEXTDATA, TEXTDATA = %x20-21 / %x23-2B / %x2D-7E
 *
 * @deviates TEXTDATA also takes every character above %x7E: the grammar is ASCII, RFC 7111 section 5.1 allows UTF-8.
 */
const field = /"(?:[^"]|"")*"|[^",\p{Cc}]*/uy;

export interface CsvFault {
  readonly offset: number;
  readonly what: string;
}

/** The first place where a text breaks RFC 4180, or undefined. Every record must have as many fields as the first. */
export function csvFault(text: string): CsvFault | undefined {
  let offset = 0;
  let width: number | undefined;
  let fields = 0;
  while (offset <= text.length) {
    field.lastIndex = offset;
    const found = field.exec(text)?.[0] ?? '';
    offset += found.length;
    fields += 1;
    if (text[offset] === ',') {
      offset += 1;
      continue;
    }
    const ends = offset === text.length || text.startsWith('\r\n', offset);
    if (!ends) return { offset, what: `${JSON.stringify(text[offset])} where a comma or CRLF must stand` };
    width ??= fields;
    if (fields !== width) return { offset, what: `${fields} fields where the first record has ${width}` };
    fields = 0;
    offset += 2;
    if (offset >= text.length) return undefined;
  }
  return undefined;
}

const formulaStart = /^[\s\u00a0]*[=+\-@＝＋－＠]|^[\t\r\n]/u;
const plainNumber = /^-?\d+(\.\d+)?$/;

/**
 * Text that a spreadsheet would take for a formula at the start of a cell, by the OWASP list (CSV Injection): = + - @ tab CR,
 * and their full-width forms. A plain number may begin with a minus.
 */
export const looksLikeFormula = (cell: string): boolean => formulaStart.test(cell) && !plainNumber.test(cell);
