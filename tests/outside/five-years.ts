/** A season's log of the size that criteria D1 names: 60 bins, five years, 100,000 entries; and its sums as a spreadsheet program is asked for them. */
import { type Store, write } from '../../apps/api/src/db/store.ts';
import { seeded } from '../../apps/web/src/lib/shared/seeded.ts';
import { BINS, SITES, uuid } from '../cast.ts';

const COUNT = { bins: 60, entries: 100_000 };
const FROM = Date.UTC(2021, 10, 1);
const SPAN_MS = Date.UTC(2026, 10, 1) - FROM;
export const FIVE_YEARS = 'from=2021-11-01&to=2026-10-31';
const FIRST_BIN = 500_001;
const FIRST_ENTRY = 1_000_001;
const DATA_FROM_ROW = COUNT.bins + 1;
const KINDS = ['weighed', 'container', 'harvest', 'check'] as const;

export interface Kept {
  readonly bin: number;
  readonly kind: (typeof KINDS)[number];
  readonly grams: number;
}
/** As much of the report as the sums are looked for in. */
export interface ByBin {
  readonly byBin: readonly { readonly key: string; readonly figures: Readonly<Record<string, number>> }[];
}

function keepBins(store: Store): void {
  const add = store.sqlite.prepare(
    `INSERT INTO bin (id, code, started_on, site_id, name, kind, area_m2, depth_m, zones, open_base, exposure, start_worms_g, start_bed_water_g,
       check_interval_days, created_at)
     SELECT ?, ?, '2021-11-01', ?, name, kind, area_m2, depth_m, zones, open_base, exposure, start_worms_g, start_bed_water_g,
       check_interval_days, created_at FROM bin WHERE id = ?`,
  );
  for (let at = 0; at < COUNT.bins; at += 1) add.run(uuid(FIRST_BIN + at), `Z${at}`, at % 2 === 0 ? SITES.meadow : SITES.school, BINS.tote);
}

function keepEntries(store: Store): Kept[] {
  const kept: Kept[] = [];
  const chance = seeded('season of five years');
  const prepare = (sql: string) => store.sqlite.prepare(sql);
  const entry = prepare('INSERT INTO entry (id, kind, bin_id, happened_at, local_date, received_at) VALUES (?, ?, ?, ?, ?, ?)');
  const feeding = prepare('INSERT INTO feeding (entry_id, zone) VALUES (?, 1)');
  const item = prepare("INSERT INTO feeding_item (entry_id, seq, material_id, grams, how) VALUES (?, 0, 'apple', ?, ?)");
  const check = prepare("INSERT INTO bin_check (entry_id, smell) VALUES (?, 'earthy')");
  const harvest = prepare("INSERT INTO harvest (entry_id, grams, how, destination, site_id) VALUES (?, ?, 'weighed', 'beds', ?)");
  for (let at = 0; at < COUNT.entries; at += 1) {
    const id = uuid(FIRST_ENTRY + at);
    const bin = at % COUNT.bins;
    const on = new Date(FROM + Math.floor(chance() * SPAN_MS)).toISOString();
    const luck = chance();
    const kind = KINDS[luck < 0.5 ? 0 : luck < 0.8 ? 1 : luck < 0.85 ? 2 : 3]!;
    const grams = 1 + Math.floor(chance() * 4000);
    const isFed = kind === 'weighed' || kind === 'container';
    entry.run(id, isFed ? 'feeding' : kind, uuid(FIRST_BIN + bin), on, on.slice(0, 10), on);
    if (isFed) {
      feeding.run(id);
      item.run(id, grams, kind);
    } else if (kind === 'harvest') harvest.run(id, grams, bin % 2 === 0 ? SITES.meadow : SITES.school);
    else check.run(id);
    kept.push({ bin, kind, grams });
  }
  return kept;
}

/** Into the store of a cast; gives what was put in. */
export const keepFiveYears = (store: Store): Kept[] =>
  write(store, () => {
    keepBins(store);
    return keepEntries(store);
  });

/** A row for each bin with the sums that the program is to find, and the entries beneath. */
export function sheetOf(kept: readonly Kept[]): string {
  const last = DATA_FROM_ROW + kept.length - 1;
  const range = (column: string) => `${column}$${DATA_FROM_ROW}:${column}$${last}`;
  const sum = (bin: number, kind: string) => `"=SUMIFS(${range('C')},${range('A')},${bin},${range('B')},""${kind}"")"`;
  const sums = Array.from({ length: COUNT.bins }, (_, bin) =>
    KINDS.slice(0, 3)
      .map((kind) => sum(bin, kind))
      .join(','),
  );
  return [...sums, ...kept.map(({ bin, kind, grams }) => `${bin},${kind},${grams}`)].join('\r\n');
}

/** Grams fed weighed, fed estimated and harvested of each bin, as the program found them. */
export const theirsIn = (found: string): number[][] =>
  found
    .split('\n')
    .slice(0, COUNT.bins)
    .map((line) => line.split(',').map(Number));

/** The same as the report has them. */
export function oursIn(season: ByBin): number[][] {
  const figures = new Map(season.byBin.map((row) => [row.key, row.figures]));
  return Array.from({ length: COUNT.bins }, (_, bin) => {
    const { fedWeighedG, fedEstimatedG, harvestedG } = figures.get(uuid(FIRST_BIN + bin))!;
    return [fedWeighedG!, fedEstimatedG!, harvestedG!];
  });
}
