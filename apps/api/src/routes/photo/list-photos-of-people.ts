import { route } from '../../routing/route.ts';
import { listPhotosOfPeople as list } from '../../services/photo-people.ts';

export const listPhotosOfPeople = route('listPhotosOfPeople', list);
