import { Sorry } from '../lib.mjs';
import { csvRows } from './csv.mjs';

const PERCENT = 100;
/** Carbon share of volatile solids is 1 / 1.8 (cornell-carbon); used backwards where a row does not print its ash. */
const VOLATILE_PER_CARBON = 1.8;
/** Fatty foods hold more carbon per volatile solids than plants do: no row may pass this. */
const MOST_ORGANIC_FRAC = 0.98;
/** Carbon in plant matter is at most 100 / 1.8 per cent of dry mass (shared/sources.md, cornell-carbon). */
const MOST_CARBON_PCT = 56;

const round = (value) => (value === null ? null : Number(value.toFixed(6)));
const number = (text) => (text === '' ? null : Number(text));

/** Text of packages/domain/src/materials/catalogue.gen.ts. */
export function catalogueText(materialsCsv, ratesCsv, mappingCsv) {
  const rates = new Map(csvRows(ratesCsv).map((row) => [row.decay_row, row]));
  const mapping = new Map(csvRows(mappingCsv).map((row) => [row.key, row]));
  const rows = csvRows(materialsCsv).map((row) => catalogueRow(row, mapping.get(row.key), rates));
  const broken = csvRows(materialsCsv)
    .filter((row) => Number(row.n_pct_db) * Number(row.cn_ratio) > MOST_CARBON_PCT)
    .map((row) => [row.key, Number((Number(row.n_pct_db) * Number(row.cn_ratio)).toFixed(2))]);
  return [
    '// Made by `npm run gen` from shared/materials.csv, shared/decay-rates.csv and shared/material-decay.csv. Do not edit.',
    "import type { MaterialRow } from './material-row.ts';",
    '',
    'export const MATERIAL_IDS = [',
    ...rows.map((row) => `  ${quote(row.id)},`),
    '] as const;',
    'export type MaterialId = (typeof MATERIAL_IDS)[number];',
    '',
    'export const CATALOGUE: Readonly<Record<MaterialId, MaterialRow>> = {',
    ...rows.map((row) => `  ${row.id}: { ${fields(row)} },`),
    '};',
    '',
    `/** Rows whose nitrogen times C:N gives more than ${MOST_CARBON_PCT} % carbon, with that per cent: fat, dry averages, or char. */`,
    'export const CARBON_ABOVE_PLANT_LIMIT: readonly (readonly [MaterialId, number])[] = [',
    ...broken.map(([key, pct]) => `  [${quote(key)}, ${pct}],`),
    '];',
    '',
  ].join('\n');
}

const quote = (text) => `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
const literal = (value) => (typeof value === 'string' ? quote(value) : String(value));
const fields = (row) =>
  Object.entries(row)
    .map(([name, value]) => `${name}: ${literal(value)}`)
    .join(', ');

function catalogueRow(row, mapped, rates) {
  if (!mapped)
    throw new Sorry(`${row.key} cannot be placed.`, {
      why: 'shared/material-decay.csv has no row for it',
      next: `add the row ${row.key},<one of: ${[...rates.keys()].join(' ')}>,,,,estimate, there: like what it rots`,
    });
  const rate = rates.get(mapped.decay_row);
  if (!rate)
    throw new Sorry(`${row.key} cannot be placed.`, {
      why: `shared/decay-rates.csv has no row ${mapped.decay_row}`,
      next: `name one of these in shared/material-decay.csv: ${[...rates.keys()].join(', ')}`,
    });
  const moisturePct = number(row.moisture_pct_wb);
  const nitrogenPct = number(row.n_pct_db);
  const densityKgM3 = number(row.bulk_density_kg_m3);
  const inert = number(mapped.organic_frac_db) === 0;
  const carbonFracDb = inert ? 0 : carbon(row, nitrogenPct);
  const organicFracDb = organic(row, mapped, carbonFracDb);
  return {
    id: row.key,
    name: row.name,
    kind: row.kind,
    hidden: moisturePct === null || nitrogenPct === null || densityKgM3 === null,
    keepBack: mapped.keep_back || null,
    moistureFracWb: moisturePct === null ? null : round(moisturePct / PERCENT),
    organicFracDb: round(organicFracDb),
    carbonFracDb: round(carbonFracDb),
    nitrogenFracDb: inert ? 0 : nitrogenPct === null ? null : round(nitrogenPct / PERCENT),
    labileFrac: Number(rate.labile_frac),
    labileRatePerDay: Number(rate.labile_rate_per_day),
    slowRatePerDay: Number(rate.slow_rate_per_day),
    bulkDensityKgM3: densityKgM3,
    qualityRatio: Number(rate.quality_ratio),
    ph: number(mapped.ph) ?? Number(rate.ph),
    decayRow: rate.decay_row,
    source: row.source_short,
    evidence: row.seen_or_memory === 'SEEN' ? 'seen' : row.seen_or_memory === 'MIXED' ? 'part seen' : 'from memory',
  };
}

/** Carbon of dry mass from nitrogen times C:N; the oil row prints its carbon in its note; no nitrogen and no C:N is mineral. */
function carbon(row, nitrogenPct) {
  const printed = /(?:^|; )C ~(\d+)%/.exec(row.notes);
  if (printed) return Number(printed[1]) / PERCENT;
  if (nitrogenPct === null) return null;
  if (nitrogenPct === 0) return 0;
  return (nitrogenPct * Number(row.cn_ratio)) / PERCENT;
}

/** Volatile solids of dry mass: the mapping's figure, else the printed ash, else Cornell's rule backwards. */
function organic(row, mapped, carbonFracDb) {
  const given = number(mapped.organic_frac_db);
  if (given !== null) return given;
  const printed = /VS (\d+(?:\.\d+)?)%\)/.exec(row.notes);
  if (printed) return Number(printed[1]) / PERCENT;
  return carbonFracDb === null ? null : Math.min(MOST_ORGANIC_FRAC, carbonFracDb * VOLATILE_PER_CARBON);
}
