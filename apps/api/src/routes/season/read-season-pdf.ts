import { route } from '../../routing/route.ts';
import { seasonFileName } from '../../services/season-csv.ts';
import { livePdf } from '../../services/season-pdf/reports.ts';
import { seasonRange } from '../../services/season-range.ts';

export const readSeasonPdf = route('readSeasonPdf', (call) => {
  const range = seasonRange(call);
  call.header('content-disposition', `attachment; filename="${seasonFileName(range, '.pdf')}"`);
  call.audit('season.exported', range.siteIds?.join(' ') ?? 'all', { from: range.from, to: range.to, profile: 'print' });
  return livePdf(call, range, call.query.language);
});
