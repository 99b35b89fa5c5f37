import { route } from '../../routing/route.ts';
import { eraseReceiver as erase } from '../../services/castings.ts';

export const eraseReceiver = route('eraseReceiver', (call) => erase(call, call.params.id, call.ownSite));
