import { route } from '../../routing/route.ts';
import { readSetting } from '../../services/messages/setting.ts';

export const readMessageSetting = route('readMessageSetting', (call) => readSetting(call));
