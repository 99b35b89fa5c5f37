import { route } from '../../routing/route.ts';
import { seasonFileName } from '../../services/season-csv.ts';
import { seasonRange } from '../../services/season-range.ts';
import { seasonXlsx } from '../../services/season-xlsx.ts';

export const readSeasonXlsx = route('readSeasonXlsx', (call) => {
  const range = seasonRange(call);
  call.header('content-disposition', `attachment; filename="${seasonFileName(range, '.xlsx')}"`);
  call.audit('season.exported', range.siteIds?.join(' ') ?? 'all', { from: range.from, to: range.to, profile: 'workbook' });
  return seasonXlsx(call, range);
});
