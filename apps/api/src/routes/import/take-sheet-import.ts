import { route } from '../../routing/route.ts';
import { takeSheetImport as take } from '../../services/import/take.ts';

export const takeSheetImport = route('takeSheetImport', (call) => take(call, call.params.id));
