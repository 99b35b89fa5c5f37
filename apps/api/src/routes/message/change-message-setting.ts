import { route } from '../../routing/route.ts';
import { changeSetting } from '../../services/messages/setting.ts';

export const changeMessageSetting = route('changeMessageSetting', (call) => changeSetting(call, call.body));
