import { route } from '../../routing/route.ts';
import { beginOwnExport } from '../../services/own-data/begin.ts';

export const readPersonData = route('readPersonData', (call) => {
  call.own(call.params.id === call.who.personId);
  const { name, stream } = beginOwnExport(call, call.params.id);
  call.header('content-disposition', `attachment; filename="${name}"`);
  return stream as never;
});
