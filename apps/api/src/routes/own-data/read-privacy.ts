import { route } from '../../routing/route.ts';
import { readPrivacy as read } from '../../services/privacy.ts';

export const readPrivacy = route('readPrivacy', (call) => read(call));
