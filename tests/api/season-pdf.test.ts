import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast, PEOPLE, SITES } from '../cast.ts';
import { readPdf, tablesOf } from './read-pdf.ts';

const SPAN = 'from=2026-09-01&to=2026-11-30';
let cast: Cast;
beforeAll(async () => {
  cast = await openCast({ at: '2026-11-25T10:00:00.000Z' });
  const at = (binId: string, day: string) => ({ binId, happenedAt: `${day}T10:00:00.000Z` });
  const fed = (massKg: number, how: string) => [{ materialId: 'apple', massKg, how }];
  await post('/api/feedings', { ...at(BINS.tote, '2026-09-02'), zone: 1, items: fed(1.234, 'weighed'), beddingKg: 0.333 });
  await post('/api/feedings', { ...at(BINS.school, '2026-10-02'), zone: 1, items: fed(87.001, 'container') });
  await post('/api/harvests', { ...at(BINS.flow, '2026-11-02'), massKg: 12.007, destination: 'given-away' });
  await post('/api/checks', { ...at(BINS.tote, '2026-09-03'), smell: 'sour' });
});
afterAll(() => cast.close());

async function post(url: string, body: object) {
  const answer = await cast.call('coordinator', 'POST', url, { id: freshId(), ...body });
  expect([url, answer.status]).toEqual([url, 201]);
  return answer.body;
}

async function fetchPdf(url: string) {
  const answer = await cast.app.inject({ method: 'GET', url, headers: { cookie: cast.cookie('coordinator') } });
  expect([url, answer.statusCode, answer.headers['content-type']]).toEqual([url, 200, 'application/pdf']);
  return { bytes: answer.rawPayload, ...(await readPdf(answer.rawPayload)) };
}

describe('GET /season.pdf', () => {
  test.each([
    ['metric', 1000],
    ['us', 453.59237],
  ] as const)('D3: its tables show the grams of the JSON, units %s', async (units, gramsEach) => {
    await cast.call('coordinator', 'PATCH', '/api/programme', { units });
    const season = (await cast.call('coordinator', 'GET', `/api/season?${SPAN}`)).body;
    const tables = tablesOf((await fetchPdf(`/api/season.pdf?${SPAN}`)).tags);
    const grams = (shown: string) => Math.round(Number(shown.replaceAll(',', '')) * gramsEach);
    const shownIn = (caption: string) => tables.get(caption)!.slice(1);
    const of = ({ figures: x }: { figures: Record<string, number> }) => [x.fedWeighedG, x.fedEstimatedG, x.harvestedG];
    for (const [caption, rows] of [
      ['By month', season.byMonth],
      ['By site', season.bySite],
      ['By bin', season.byBin],
    ])
      expect([caption, shownIn(caption).map((row) => row.slice(1, 4).map(grams))]).toEqual([
        caption,
        [...rows.map(of), of({ figures: season.total })],
      ]);
    expect(of({ figures: season.total })).toEqual([1234, 87_001, 12_007]);
    expect(shownIn('By material').map((row) => row.slice(1, 4).map(grams))).toEqual(
      season.byMaterial.map((row: Record<string, number>) => [row.fedWeighedG, row.fedEstimatedG, row.beddingG]),
    );
    expect(shownIn('Where castings went').map((row) => [row[0], grams(row[1]!)])).toEqual([['given away', 12_007]]);
  });

  test('D12: tagged, with title and language, one first heading, tables with heads for rows and columns, bars told in words', async () => {
    const { title, language, isTagged, tags, bytes } = await fetchPdf(`/api/season.pdf?${SPAN}`);
    expect([title, language, isTagged]).toEqual(['Season report, 1 September 2026 to 30 November 2026', 'en', true]);
    expect(tags.filter(({ tag }) => tag === 'H1').map(({ text }) => text)).toEqual([title]);
    expect(tags.filter(({ tag }) => tag === 'H2').map(({ text }) => text)).toEqual([
      ...['In figures', 'By material', 'Where castings went', 'Problems seen at checks', 'By month', 'By site', 'By bin'],
    ]);
    // A heading says what the table under it is; it is not said again.
    const captions = tags.flatMap(({ children }) => children.filter(({ tag }) => tag === 'Caption').map(({ text }) => text));
    expect(captions.filter((caption) => tags.some(({ tag, text }) => tag === 'H2' && text === caption))).toEqual([]);
    for (const { children } of tags.filter(({ tag }) => tag === 'Table')) {
      const [head, ...rows] = children.filter(({ tag }) => tag === 'TR').map((row) => row.children.map(({ tag }) => tag));
      expect(new Set(head)).toEqual(new Set(['TH']));
      for (const [first, ...others] of rows) expect([first, new Set(others)]).toEqual(['TH', new Set(['TD'])]);
    }
    expect(tags.find(({ tag }) => tag === 'Figure')?.alt).toBe(
      'Bars of scraps and castings by month. The table beneath has the same numbers.',
    );
    // The scope of heads and the mark of the standard, as they stand in the file.
    const file = Buffer.from(bytes).toString('latin1');
    for (const part of ['/Scope /Column', '/Scope /Row', '<pdfuaid:part>', '/DisplayDocTitle true']) expect(file).toContain(part);
  });

  test('D6: in Spanish too, and nobody is named in it', async () => {
    const { language, tags, title } = await fetchPdf(`/api/season.pdf?${SPAN}&language=es`);
    expect([language, title]).toEqual(['es', 'Balance de la temporada, del 1 de septiembre de 2026 al 30 de noviembre de 2026']);
    const said = JSON.stringify(tags);
    expect(said).toContain('En cifras');
    for (const { name } of Object.values(PEOPLE)) expect(said).not.toContain(name);
  });
});

test('D14: a published report prints as it stood, with the words of then', async () => {
  const span = { from: '2026-09-01', to: '2026-11-30', siteId: SITES.meadow };
  const texts = { opening: 'A dry spring.\n\nThen it <b>rained</b>.' };
  const { id } = await post('/api/published-seasons', { ...span, name: 'Autumn', texts });
  const print = async () => (await fetchPdf(`/api/published-seasons/${id}/report.pdf`)).tags;
  const before = await print();
  await post('/api/harvests', { binId: BINS.tote, happenedAt: '2026-11-03T10:00:00.000Z', massKg: 5, destination: 'beds' });
  expect(await print()).toEqual(before);
  const told = before.filter(({ tag }) => tag === 'P').map(({ text }) => text);
  expect(told.slice(1, 3)).toEqual(['A dry spring.', 'Then it <b>rained</b>.']);
  expect(told[0]).toContain('Published 25 November 2026.');
});

describe('D12: names in other letters than English print as themselves', () => {
  // Each with letters of the alphabet that it is written in, beyond those of the reader's own language.
  const NAMES = ['Παλιός κήπος', 'Дальний двор', 'Vườn ươm cuối xóm', 'Yağmurlu bağ, İğdır ışığı', 'Źródło i żółw pod Łąką'] as const;
  const print = async () =>
    (await cast.app.inject({ url: `/api/season.pdf?${SPAN}`, headers: { cookie: cast.cookie('coordinator') } })).rawPayload;
  const renamed = async (name: string) => {
    const { status } = await cast.call('coordinator', 'PATCH', `/api/sites/${SITES.meadow}`, { name });
    expect([name, status]).toEqual([name, 200]);
    const bytes = await print();
    const { tags, isTagged } = await readPdf(bytes);
    const told = tags.filter(({ tag }) => tag === 'P').map(({ text }) => text);
    return {
      bytes,
      isTagged,
      told,
      sites: tablesOf(tags)
        .get('By site')!
        .map(([first]) => first),
    };
  };

  test.each(NAMES)('%s', async (name) => {
    const { sites, told, isTagged } = await renamed(name);
    expect([isTagged, sites.includes(name)]).toEqual([true, true]);
    expect(told.filter((text) => text.includes('\ufffd'))).toEqual([]);
  });

  test('what neither typeface has is replaced, and a line says so; only what is used is in the file', async () => {
    const plain = await renamed('Meadow');
    const greek = await renamed(NAMES[0]);
    const { sites, told } = await renamed('庭 Garden 🪱');
    expect(sites).toContain('\ufffd Garden \ufffd');
    expect(told.at(-1)).toBe('Where \ufffd stands, a name has a letter that this file cannot print. The page and the CSV have it.');
    expect(plain.told.at(-1)).not.toContain('\ufffd');
    // The whole second typeface is 166 kB.
    expect(greek.bytes.length - plain.bytes.length).toBeLessThan(20_000);
  });
});
