import { route } from '../../routing/route.ts';
import { readPublishedSeasonPhotos as read } from '../../services/season-photos.ts';

export const readPublishedSeasonPhotos = route('readPublishedSeasonPhotos', (call) => read(call, call.params.id));
