import { route } from '../../routing/route.ts';
import { dropAddress } from '../../services/messages/setting.ts';

export const dropMailAddress = route('dropMailAddress', (call) => dropAddress(call));
