import { route } from '../../routing/route.ts';
import { putAddress } from '../../services/messages/setting.ts';

export const putMailAddress = route('putMailAddress', (call) => putAddress(call, call.body));
