import { route } from '../../routing/route.ts';
import { publishedPdf } from '../../services/season-pdf/reports.ts';

export const readPublishedSeasonPdf = route('readPublishedSeasonPdf', (call) => {
  const file = publishedPdf(call, call.params.id, call.query.language);
  call.header('content-disposition', `attachment; filename="report-${call.params.id}.pdf"`);
  return file;
});
