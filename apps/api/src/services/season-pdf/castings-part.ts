/** Castings in print: where each harvest went, who got them in the end, and what lies in store. */
import type { KeptSeason } from '@middenry/contract';
import type { Paper } from './paper.ts';
import type { Show } from './season-pdf.ts';
import type { ReportWords } from './words.ts';

type Castings = NonNullable<KeptSeason['castings']>;
/** Signed as the balance adds up. */
const OUT = ['givenOutG', 'writtenOffG'];

const signed = (name: string, grams: number | null): number | null => (grams !== null && OUT.includes(name) ? 0 - grams : grams);
const isEmpty = ({ store }: Castings): boolean => Object.values(store).every((grams) => grams === 0);

export const hasCastings = ({ destinations, castings }: KeptSeason): boolean =>
  destinations.length > 0 || (castings !== null && (castings.givenOut.length > 0 || !isEmpty(castings)));

export function castingsPart(paper: Paper, { destinations, castings }: KeptSeason, show: Show, w: ReportWords): void {
  const inUnit = (head: string) => `${head}, ${show.massUnit}`;
  if (destinations.length > 0) {
    const rows = destinations.map((row) => [w.destinations[row.destination], show.mass(row.grams), show.ofHundred(row.percent)]);
    paper.table({ heads: [w.heads.what, inUnit(w.heads.castings), w.heads.share], rows, summed: false });
  }
  if (castings === null) return;
  const { who, fromBin, fromStore, together, volume } = w.stores;
  if (castings.givenOut.length > 0)
    paper.table({
      caption: w.stores.givenOut,
      heads: [who, ...[fromBin, fromStore, together].map(inUnit), volume, w.heads.share],
      rows: castings.givenOut.map((row) => [
        w.destinations[row.destination],
        ...[row.fromBinG, row.fromStoreG, row.grams].map(show.mass),
        ...[show.volume(row.ml), show.ofHundred(row.percent)],
      ]),
      summed: false,
    });
  if (!isEmpty(castings)) storeTable(paper, castings, show, w);
  if (castings.expected !== null && castings.expected.harvests !== 0) expectedTable(paper, castings.expected, show, w);
}

function expectedTable(paper: Paper, { bySite, notExpected, ...all }: NonNullable<Castings['expected']>, show: Show, w: ReportWords): void {
  const { caption, harvests, meaning, left, ...heads } = w.expected;
  const line = (name: string, { expectedG: { low, mid, high }, ...sum }: typeof all) => [
    ...[name, show.count(sum.harvests)],
    ...[sum.weighedG, mid, low, high].map(show.mass),
  ];
  const inUnit = [heads.weighed, heads.expected, heads.low, heads.high].map((head) => `${head}, ${show.massUnit}`);
  const rows = [...bySite.map((row) => line(row.label, row)), line(w.all, all)];
  paper.table({ caption, heads: [w.heads.what, harvests, ...inUnit], rows, summed: true });
  paper.paragraph(notExpected === null || notExpected === 0 ? meaning : `${meaning} ${left(notExpected)}`);
}

function storeTable(paper: Paper, { store }: Castings, show: Show, w: ReportWords): void {
  const names = Object.keys(w.stores.rows) as (keyof typeof store)[];
  const rows = names.map((name) => [w.stores.rows[name], show.mass(signed(name, store[name]))]);
  paper.table({ caption: w.stores.store, heads: [w.heads.what, `${w.heads.castings}, ${show.massUnit}`], rows, summed: false });
}
