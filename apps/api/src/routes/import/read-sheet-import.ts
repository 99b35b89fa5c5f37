import { route } from '../../routing/route.ts';
import { readSheetImport as read } from '../../services/import/sheet-imports.ts';

export const readSheetImport = route('readSheetImport', (call) => read(call, call.params.id));
