import { route } from '../../routing/route.ts';
import { drawSeason } from '../../services/sign-up-seasons.ts';

export const drawPlaces = route('drawPlaces', (call) => drawSeason(call, call.params.id, call.ownSite));
