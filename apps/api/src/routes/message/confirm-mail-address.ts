import { route } from '../../routing/route.ts';
import { confirmAddress } from '../../services/messages/setting.ts';

export const confirmMailAddress = route('confirmMailAddress', (call) => confirmAddress(call, call.body));
