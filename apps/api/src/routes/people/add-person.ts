import { route } from '../../routing/route.ts';
import { addPerson as add } from '../../services/people.ts';

export const addPerson = route('addPerson', (call) => add(call, call.body));
