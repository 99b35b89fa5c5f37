import { route } from '../../routing/route.ts';
import { listSheetImports as list } from '../../services/import/sheet-imports.ts';

export const listSheetImports = route('listSheetImports', (call) => list(call));
