import { route } from '../../routing/route.ts';
import { seasonFileName } from '../../services/season-csv.ts';
import { seasonRange } from '../../services/season-range.ts';
import { seasonReportCsv } from '../../services/season-report-csv.ts';

export const readSeasonReportCsv = route('readSeasonReportCsv', (call) => {
  const { profile } = call.query;
  const range = seasonRange(call);
  call.header('content-disposition', `attachment; filename="${seasonFileName(range, `-report-${profile}.csv`)}"`);
  call.audit('season.exported', range.siteIds?.join(' ') ?? 'all', { from: range.from, to: range.to, profile: `report-${profile}` });
  return seasonReportCsv(call, range, profile);
});
