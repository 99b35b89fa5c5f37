import { route } from '../../routing/route.ts';
import { putSeasonPhotos as put } from '../../services/season-photos.ts';

export const putSeasonPhotos = route('putSeasonPhotos', (call) => put(call, call.params.id, call.body));
