import { route } from '../../routing/route.ts';
import { changePerson as change } from '../../services/people.ts';

export const changePerson = route('changePerson', (call) => change(call, call.params.id, call.body));
