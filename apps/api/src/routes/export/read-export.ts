import { route } from '../../routing/route.ts';
import { beginExport } from '../../services/export/begin-export.ts';

export const readExport = route('readExport', (call) => {
  const { name, stream } = beginExport(call);
  call.header('content-disposition', `attachment; filename="${name}"`);
  return stream as never;
});
