import { route } from '../../routing/route.ts';
import { readWhatIf as read } from '../../services/what-if.ts';

export const readWhatIf = route('readWhatIf', (call) => read(call, call.params.id, call.query));
