import { route } from '../../routing/route.ts';
import { publishedReportCsv } from '../../services/season-report-csv.ts';

export const readPublishedSeasonCsv = route('readPublishedSeasonCsv', (call) => {
  const file = publishedReportCsv(call, call.params.id, call.query.profile);
  call.header('content-disposition', `attachment; filename="report-${call.params.id}-${call.query.profile}.csv"`);
  return file;
});
