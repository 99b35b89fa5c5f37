import { route } from '../../routing/route.ts';
import { binOf, binShape } from '../../services/bins.ts';

export const readBin = route('readBin', (call) => binShape(binOf(call.store, call.params.id)));
