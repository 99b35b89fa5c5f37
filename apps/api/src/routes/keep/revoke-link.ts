import { route } from '../../routing/route.ts';
import { takeBackLink } from '../../services/links.ts';

export const revokeLink = route('revokeLink', (call) => takeBackLink(call, call.params.id));
