/**
 * Twenty names that a spreadsheet might run as a formula: the starts of the OWASP list (CSV Injection), after white space, in full
 * width, and after anything that some country's spreadsheet takes for the end of a cell.
 */
export const formulaPayloads: readonly string[] = [
  '=1+1',
  '+1+1',
  '-1+1',
  '@SUM(1,1)',
  '=HYPERLINK("https://elsewhere.example","Prize")',
  '-2+3+cmd|calc',
  "=cmd|'/C calc'!A0",
  '=1+1,"two","three"',
  'Bed;=1+1',
  'Bed\t=1+1',
  'Bed|=1+1',
  'Bed\r\n=1+1',
  'Bed,@SUM(1)',
  '＝1+1',
  '＋1+1',
  '－1+1',
  '＠SUM(1)',
  "'=1+1",
  '"=1+1"',
  'Bed; \t+1+1',
];
