import { route } from '../../routing/route.ts';
import { undoSheetImport as undo } from '../../services/import/take.ts';

export const undoSheetImport = route('undoSheetImport', (call) => {
  undo(call, call.params.id);
  return undefined;
});
