import { SEASON_COLUMNS } from '@middenry/domain';
import { markdownTable, type ReferencePage } from './page.ts';

export const seasonPage: ReferencePage = {
  file: 'season-columns.md',
  title: 'Columns of the season report',
  about: 'What each figure of the season report and its CSV counts. Made from `packages/domain/src/season`.',
  body: () =>
    markdownTable(
      ['Column', 'Unit', 'Meaning'],
      Object.values(SEASON_COLUMNS).map(({ id, unit, meaning }) => [`\`${id}\``, unit, meaning]),
    ),
};
