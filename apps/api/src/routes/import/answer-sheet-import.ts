import { route } from '../../routing/route.ts';
import { answerSheetImport as answer } from '../../services/import/sheet-imports.ts';

export const answerSheetImport = route('answerSheetImport', (call) => answer(call, call.params.id, call.body));
