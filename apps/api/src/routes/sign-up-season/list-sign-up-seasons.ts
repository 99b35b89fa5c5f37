import { route } from '../../routing/route.ts';
import { listSignUpSeasons as list } from '../../services/sign-up-seasons.ts';

export const listSignUpSeasons = route('listSignUpSeasons', (call) => ({ items: list(call, call.query.siteId) }));
