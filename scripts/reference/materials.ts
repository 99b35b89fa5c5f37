import { CATALOGUE } from '@middenry/domain';
import { markdownTable, plain, type ReferencePage } from './page.ts';

export const materialsPage: ReferencePage = {
  file: 'materials.md',
  title: 'Materials',
  about:
    'What may go into a bin and what never. A hidden row lacks a figure until somebody fills it in. Made from `shared/materials.csv`; the sources are in `shared/sources.md`.',
  body: () =>
    markdownTable(
      ['Id', 'Name', 'Kind', 'Water, share of wet', 'C, share of dry', 'N, share of dry', 'kg/m3', 'Hidden', 'How well known', 'Source'],
      Object.values(CATALOGUE).map((row) => [
        `\`${row.id}\``,
        row.name,
        row.kind,
        plain(row.moistureFracWb),
        plain(row.carbonFracDb),
        plain(row.nitrogenFracDb),
        plain(row.bulkDensityKgM3),
        row.hidden ? 'yes' : '',
        row.evidence,
        row.source,
      ]),
    ),
};
