import { route } from '../../routing/route.ts';
import { addSheetImport as add } from '../../services/import/sheet-imports.ts';

export const addSheetImport = route('addSheetImport', (call) => add(call, call.body));
