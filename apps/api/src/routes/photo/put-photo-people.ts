import { route } from '../../routing/route.ts';
import { putPhotoPeople as put } from '../../services/photo-people.ts';

export const putPhotoPeople = route('putPhotoPeople', (call) => put(call, call.params.id, call.body));
