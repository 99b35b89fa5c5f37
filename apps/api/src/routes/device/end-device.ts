import { endSession, findLiveSession } from '../../db/repositories/session.ts';
import { write } from '../../db/store.ts';
import { refuse } from '../../refusal.ts';
import { route } from '../../routing/route.ts';

export const endDevice = route('endDevice', (call) => {
  const session = findLiveSession(call.store, call.params.id, call.now.toISOString());
  if (session === undefined) throw refuse('not-found');
  call.own(session.personId === call.who.personId);
  write(call.store, () => {
    endSession(call.store, session.id, call.now.toISOString());
    call.audit('device-ended', session.personId);
  });
  return undefined;
});
