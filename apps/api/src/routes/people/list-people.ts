import { route } from '../../routing/route.ts';
import { listPeople as list } from '../../services/people.ts';

export const listPeople = route('listPeople', list);
