import { route } from '../../routing/route.ts';
import { readPlaces as read } from '../../services/places.ts';

export const readPlaces = route('readPlaces', (call) => read(call, call.query));
