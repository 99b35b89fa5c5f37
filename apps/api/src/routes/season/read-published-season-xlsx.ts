import { route } from '../../routing/route.ts';
import { publishedXlsx } from '../../services/season-xlsx.ts';

export const readPublishedSeasonXlsx = route('readPublishedSeasonXlsx', (call) => {
  const file = publishedXlsx(call, call.params.id);
  call.header('content-disposition', `attachment; filename="report-${call.params.id}.xlsx"`);
  return file;
});
