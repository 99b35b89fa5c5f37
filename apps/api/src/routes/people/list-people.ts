import { listPersons } from '../../db/repositories/person.ts';
import { write } from '../../db/store.ts';
import { route } from '../../routing/route.ts';
import { personShape } from '../../services/people.ts';

export const listPeople = route('listPeople', (call) => {
  // Whoever looks at how to reach people leaves a trace.
  write(call.store, () => call.audit('contacts-seen'));
  return { items: listPersons(call.store).map(personShape) };
});
