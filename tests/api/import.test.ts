import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import writeXlsxFile from 'write-excel-file/node';
import yazl from 'yazl';
import { type Answer, BINS, type Cast, freshId, openCast, PEOPLE, SITES } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

const call = (method: string, url: string, body?: unknown): Promise<Answer> => cast.call('coordinator', method, url, body);
const send = (content: string | Buffer, kind = 'feedings', id = freshId()) =>
  call('POST', '/api/imports', { id, kind, fileName: 'log.csv', content: Buffer.from(content).toString('base64') });
const taken = (id: string) => call('POST', `/api/imports/${id}/taken`, {});
const entries = (): number => Number(cast.store.sqlite.prepare('SELECT count(*) FROM entry WHERE undone_at IS NULL').pluck().get());
const season = async () => (await call('GET', '/api/season?from=2026-01-01&to=2026-12-31')).body.total;

const HEAD = 'Date,Bin,Food,Weight (kg),Who,Notes\n';
const GOOD = `${HEAD}25/07/2026,T1,Apple,2,Otis Barrow,first\n26/07/2026,Tote by the gate,coffee,1.25,,\n,,,,,\n27/07/2026,Z9,Apple,2,,\nTotal,,,5.25,,\n`;

describe('a spreadsheet of feedings', () => {
  it('G6: is shown before anything is written, taken whole, and undone with one press', async () => {
    const before = { entries: entries(), total: await season() };
    const shown = await send(GOOD);
    expect(shown.status).toBe(201);
    expect(shown.body.counts).toEqual({ read: 5, ready: 2, imported: 0, again: 0, skipped: 2, refused: 1 });
    expect(shown.body.columns).toEqual({ date: 0, bin: 1, material: 2, amount: 3, person: 4, note: 5 });
    expect(shown.body.ready[0]).toMatchObject({
      row: 2,
      day: '2026-07-25',
      bin: 'T1 Tote by the gate',
      massKg: 2,
      person: 'Otis Barrow',
      note: 'first',
    });
    expect(entries()).toBe(before.entries);
    const done = await taken(shown.body.id);
    expect(done.body.counts).toEqual({ read: 5, ready: 0, imported: 2, again: 0, skipped: 2, refused: 1 });
    expect(entries()).toBe(before.entries + 2);
    const log = await call('GET', `/api/bins/${BINS.tote}/entries`);
    expect(log.body.items[1]).toMatchObject({
      localDate: '2026-07-25',
      happenedAt: '2026-07-25T11:00:00.000Z',
      by: { id: PEOPLE.volunteer.id },
      items: [{ materialId: 'apple', massKg: 2, how: 'weighed', typed: { value: 2, unit: 'kg' } }],
    });
    expect((await season()).fedWeighedG).toBe(before.total.fedWeighedG + 3250);
    expect((await taken(shown.body.id)).body.code).toBe('import-taken');
    expect((await call('DELETE', `/api/imports/${shown.body.id}`)).status).toBe(204);
    expect([entries(), await season()]).toEqual([before.entries, before.total]);
    expect((await call('DELETE', `/api/imports/${shown.body.id}`)).body.code).toBe('already-undone');
  });

  it('G10: the same file twice brings nothing in again and says so; one that has grown brings the new rows only', async () => {
    const first = await send(GOOD);
    await taken(first.body.id);
    const before = entries();
    const again = await send(GOOD);
    expect(again.body.importedBefore).toBe('2026-11-25T10:00:00.000Z');
    expect(again.body.counts).toMatchObject({ ready: 0, again: 2 });
    expect((await taken(again.body.id)).body.counts).toMatchObject({ imported: 0, again: 2, read: 5 });
    const grown = await send(`${GOOD}28/07/2026,T1,Apple,1,,\n28/07/2026,T1,Apple,1,,\n`);
    expect((await taken(grown.body.id)).body.counts).toMatchObject({ imported: 2, again: 2 });
    expect(entries()).toBe(before + 2);
    for (const { body } of [first, grown]) await call('DELETE', `/api/imports/${body.id}`);
  });

  it('keeps the answers for the next file with the same headings', async () => {
    const text = (rows: string) => `When,Bin,Stuff,How much\n${rows}`;
    const first = await send(text('3/4/2026,T1,Dragon fruit,2\n'));
    expect(first.body.questions.map(({ ask }: { ask: string }) => ask).sort()).toEqual(['date-order', 'name', 'unit']);
    expect((await taken(first.body.id)).body.code).toBe('answers-first');
    const answers = { columns: { material: 2 }, dateOrder: 'month-first', unit: 'lb', names: { material: { 'dragon fruit': 'apple' } } };
    const answered = await call('PUT', `/api/imports/${first.body.id}`, answers);
    // Before the bin was started, by what was answered.
    expect(answered.body.refused[0].faults).toEqual([{ field: 'date', value: '3/4/2026', reason: 'before-bin' }]);
    await taken(first.body.id);
    const next = await send(text('7/4/2026,T1,dragon fruit,4\n'));
    expect(next.body.ready).toEqual([expect.objectContaining({ day: '2026-07-04', material: 'Apple, whole with skin', massKg: 1.814 })]);
    await call('DELETE', `/api/imports/${next.body.id}`);
  });

  it('G9: tells of every refused row with number, column, value, reason and what to do', async () => {
    const shown = await send(`${HEAD}31/02/2026,Z9,Apple,"=1+1",Otis Barrow,\n30/07/2026,T1,Apple,2,,\n`);
    const csv = await call('GET', `/api/imports/${shown.body.id}/refused.csv`);
    expect(csv.text.split('\r\n').slice(0, -1)).toEqual([
      '\uFEFF"row","column","value","reason","what_to_do"',
      '2,"date","31/02/2026","there is no such day","look up the day"',
      '2,"bin","Z9","no such bin","choose the bin"',
      '2,"amount","\'=1+1","not a number","write a number, such as 4.5"',
    ]);
    expect((await call('DELETE', `/api/imports/${shown.body.id}`)).status).toBe(204);
    expect((await call('GET', `/api/imports/${shown.body.id}`)).status).toBe(404);
  });

  it('G9: counts every row once, whatever is in the file', async () => {
    const cell = fc.constantFrom('', '25/07/2026', '1/13/2026', 'T1', 'Z9', 'Apple', '2', '2 kg', '=A1', 'Total', '"', '½ bucket', '1,250');
    const rows = fc.array(fc.array(cell, { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 12 });
    for (const [at, some] of fc.sample(rows, { numRuns: 25, seed: 20261126 }).entries()) {
      const shown = await send(HEAD + some.map((row) => row.map((one) => `"${one.replaceAll('"', '""')}"`).join(',')).join('\n'));
      const { read, ready, again, skipped, refused } = shown.body.counts;
      expect([at, ready + again + skipped + refused]).toEqual([at, read]);
      await call('DELETE', `/api/imports/${shown.body.id}`);
    }
  });

  it('may be undone for a day and no longer', async () => {
    const shown = await send(GOOD);
    await taken(shown.body.id);
    const at = cast.clock.at;
    cast.clock.at = new Date(at.getTime() + 86_400_001);
    expect((await call('DELETE', `/api/imports/${shown.body.id}`)).body.code).toBe('too-late-to-undo');
    cast.clock.at = at;
    expect((await call('DELETE', `/api/imports/${shown.body.id}`)).status).toBe(204);
  });
});

describe('other lists', () => {
  it('hours come in as places that people kept, count in the season, and go again', async () => {
    const before = await season();
    const text = `Name,Date,Hours,Site\n${PEOPLE.volunteer.name},2026-07-25,1.5,Long Meadow\n${PEOPLE.volunteer.name},2026-07-25,2,Long Meadow\n${PEOPLE.otherVolunteer.name},2026-07-25,0:45,Long Meadow\nNobody Known,2026-07-25,3,Long Meadow\n`;
    const shown = await send(text, 'hours');
    expect(shown.body.counts).toMatchObject({ ready: 3, refused: 1 });
    expect((await taken(shown.body.id)).body.counts).toMatchObject({ imported: 3, refused: 1 });
    expect((await season()).minutes).toBe(before.minutes + 255);
    await call('DELETE', `/api/imports/${shown.body.id}`);
    expect(await season()).toEqual(before);
  });

  it('checks and harvests say what was found and where it went', async () => {
    const checks = await send('Date,Bin,Moisture,Smell,Temp (F),pH\n2026-07-25,F1,wet,earthy,68,6.5\n', 'checks');
    await taken(checks.body.id);
    const harvests = await send('Date,Bin,Castings (lb),Destination\n2026-07-26,F1,10,beds\n2026-07-26,F1,1,Aunt May\n', 'harvests');
    expect(harvests.body.columns.amount).toBe(2);
    await taken(harvests.body.id);
    const { items } = (await call('GET', `/api/bins/${BINS.flow}/entries`)).body;
    expect(items.at(-1)).toMatchObject({ kind: 'check', squeeze: 'few-drops', smell: 'earthy', bedTempC: 20, ph: 6.5, by: null });
    expect(
      items
        .slice(0, 2)
        .map((one: { massKg: number; destination: string; destinationNote: string }) => [one.massKg, one.destination, one.destinationNote])
        .sort(),
    ).toEqual([
      [0.454, 'other', 'Aunt May'],
      [4.536, 'beds', ''],
    ]);
    for (const { body } of [checks, harvests]) await call('DELETE', `/api/imports/${body.id}`);
  });

  it('a workbook brings real days, numbers and the results of formulas', async () => {
    const day = { value: new Date('2026-07-05T00:00:00Z'), type: Date, format: 'mm/dd/yyyy' };
    const rows = [
      ['Our bins', null, null, null].map((value) => (value === null ? null : { value })),
      ['Date', 'Bin', 'Food', 'Weight (kg)'].map((value) => ({ value })),
      [day, { value: 'T1' }, { value: 'Apple' }, { value: 1.234, type: Number }],
      [day, { value: 'T1' }, { value: 'Apple' }, { value: '1+1', type: 'Formula' }],
    ];
    const bytes = await writeXlsxFile(rows as never, {}).toBuffer();
    const shown = await send(bytes);
    expect(shown.body.ready[0]).toMatchObject({ row: 3, day: '2026-07-05', massKg: 1.234 });
    // No program has worked the formula out: it is not done here either.
    expect(shown.body.refused).toEqual([
      { row: 4, faults: [{ field: 'amount', value: expect.any(String), reason: expect.stringMatching(/no-amount|not-a-number/) }] },
    ]);
    await call('DELETE', `/api/imports/${shown.body.id}`);
  });

  it('G11: a workbook that would burst is refused in words', async () => {
    const zip = new yazl.ZipFile();
    zip.addBuffer(Buffer.alloc(60 * 1024 * 1024, 32), 'xl/worksheets/sheet1.xml');
    zip.end();
    const pieces: Buffer[] = [];
    for await (const piece of zip.outputStream) pieces.push(piece as Buffer);
    expect((await send(Buffer.concat(pieces))).body.code).toBe('sheet-unreadable');
  });

  it('G11: a workbook that points at a file of this machine is shown nothing of it', async () => {
    const sheet = `<?xml version="1.0"?><!DOCTYPE w [<!ENTITY e SYSTEM "file://${cast.dir}/cast.db"><!ENTITY n "Seen inside">]>
      <worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>
      <row r="1"><c r="A1" t="inlineStr"><is><t>Date</t></is></c><c r="B1" t="inlineStr"><is><t>Bin</t></is></c></row>
      <row r="2"><c r="A2" t="inlineStr"><is><t>&e;</t></is></c><c r="B2" t="inlineStr"><is><t>&n;</t></is></c></row>
      </sheetData></worksheet>`;
    const main = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
    const zip = new yazl.ZipFile();
    zip.addBuffer(Buffer.from(sheet), 'xl/worksheets/sheet1.xml');
    zip.addBuffer(
      Buffer.from(
        `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="${main}"><sheets><sheet name="S" sheetId="1" r:id="r1"/></sheets></workbook>`,
      ),
      'xl/workbook.xml',
    );
    zip.addBuffer(
      Buffer.from(
        `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="${main}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
      ),
      'xl/_rels/workbook.xml.rels',
    );
    zip.end();
    const pieces: Buffer[] = [];
    for await (const piece of zip.outputStream) pieces.push(piece as Buffer);
    const answer = await send(Buffer.concat(pieces));
    expect(answer.status).toBeLessThan(500);
    expect(answer.text).not.toMatch(/SQLite format|Seen inside/);
    if (answer.status < 300) await call('DELETE', `/api/imports/${answer.body.id}`);
  });

  it('is for coordinators, and names no site that is not there', async () => {
    const shown = await send(`Name,Date,Hours,Site\n${PEOPLE.volunteer.name},2026-07-25,1,Nowhere\n`, 'hours');
    expect(shown.body.questions).toEqual([{ ask: 'name', field: 'site', name: 'nowhere', shown: 'Nowhere', rows: 1 }]);
    const made = await call('PUT', `/api/imports/${shown.body.id}`, { names: { site: { nowhere: 'no such id' } } });
    expect(made.body.counts.refused).toBe(1);
    const known = await call('PUT', `/api/imports/${shown.body.id}`, { names: { site: { nowhere: SITES.school } } });
    expect(known.body.ready[0]).toMatchObject({ site: 'Hilltop School', minutes: 60 });
    expect((await cast.call('siteLead', 'GET', '/api/imports')).status).toBe(403);
  });
});
