import { route } from '../../routing/route.ts';
import { listPhotos as list } from '../../services/photos.ts';

export const listPhotos = route('listPhotos', (call) => list(call, call.params.id, call.query.limit, call.ownSite));
