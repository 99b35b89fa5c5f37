import type { BoundRoute } from '../../routing/route.ts';
import { addSeason } from './add-season.ts';
import { changeSeason } from './change-season.ts';
import { confirmClimateFactors } from './confirm-climate-factors.ts';
import { listPublishedSeasons } from './list-published-seasons.ts';
import { listSeasons } from './list-seasons.ts';
import { publishSeason } from './publish-season.ts';
import { readClimateFactors } from './read-climate-factors.ts';
import { readPublishedSeason } from './read-published-season.ts';
import { readPublishedSeasonCsv } from './read-published-season-csv.ts';
import { readPublishedSeasonPdf } from './read-published-season-pdf.ts';
import { readPublishedSeasonXlsx } from './read-published-season-xlsx.ts';
import { readSeason } from './read-season.ts';
import { readSeasonCsv } from './read-season-csv.ts';
import { readSeasonLink } from './read-season-link.ts';
import { readSeasonPdf } from './read-season-pdf.ts';
import { readSeasonReportCsv } from './read-season-report-csv.ts';
import { readSeasonSchema } from './read-season-schema.ts';
import { readSeasonWeeks } from './read-season-weeks.ts';
import { readSeasonXlsx } from './read-season-xlsx.ts';
import { removeClimateFactors } from './remove-climate-factors.ts';
import { removeSeason } from './remove-season.ts';

export const seasonHandlers: readonly BoundRoute[] = [
  readSeason,
  readSeasonCsv,
  readSeasonSchema,
  readSeasonXlsx,
  readSeasonPdf,
  readSeasonWeeks,
  readSeasonLink,
  listSeasons,
  addSeason,
  changeSeason,
  removeSeason,
  listPublishedSeasons,
  publishSeason,
  readPublishedSeason,
  readPublishedSeasonPdf,
  readPublishedSeasonCsv,
  readPublishedSeasonXlsx,
  readSeasonReportCsv,
  readClimateFactors,
  confirmClimateFactors,
  removeClimateFactors,
];
