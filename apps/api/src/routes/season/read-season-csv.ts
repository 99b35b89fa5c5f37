import { route } from '../../routing/route.ts';
import { seasonCsv, seasonFileName } from '../../services/season-csv.ts';
import { seasonRange } from '../../services/season-range.ts';

export const readSeasonCsv = route('readSeasonCsv', (call) => {
  const { profile } = call.query;
  const range = seasonRange(call);
  call.header('content-disposition', `attachment; filename="${seasonFileName(range, `-${profile}.csv`)}"`);
  call.audit('season.exported', range.siteIds?.join(' ') ?? 'all', { from: range.from, to: range.to, profile });
  return seasonCsv(call, range, profile);
});
