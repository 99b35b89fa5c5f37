import { route } from '../../routing/route.ts';
import { refusedCsv } from '../../services/import/refused-csv.ts';

export const readRefusedRows = route('readRefusedRows', (call) => {
  call.header('content-disposition', 'attachment; filename="rows-with-faults.csv"');
  return refusedCsv(call, call.params.id);
});
