import { route } from '../../routing/route.ts';
import { readSeasonPhotos as read } from '../../services/season-photos.ts';

export const readSeasonPhotos = route('readSeasonPhotos', (call) => read(call, call.params.id));
