/** Rows of a CSV text (RFC 4180 quoting) as objects keyed by the head line; a row of another width is an error. */
export function csvRows(text) {
  const [head, ...body] = cells(text);
  return body.map((row, index) => {
    if (row.length !== head.length) throw new Error(`CSV row ${index + 2} has ${row.length} cells, the head has ${head.length}`);
    return Object.fromEntries(head.map((name, column) => [name, row[column]]));
  });
}

function cells(text) {
  const rows = [];
  let row = [];
  let cell = '';
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (quoted) {
      if (c !== '"') cell += c;
      else if (text[i + 1] === '"') cell += text[++i];
      else quoted = false;
    } else if (c === '"') quoted = true;
    else if (c === ',') {
      row.push(cell);
      cell = '';
    } else if (c === '\n') {
      row.push(cell);
      rows.push(row);
      row = [];
      cell = '';
    } else if (c !== '\r') cell += c;
  }
  if (cell !== '' || row.length > 0) rows.push([...row, cell]);
  return rows;
}
