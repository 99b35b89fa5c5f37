import { route } from '../../routing/route.ts';
import { listConsentsOf as list } from '../../services/consent/consents.ts';

export const listConsentsOf = route('listConsentsOf', (call) => {
  call.own(call.params.id === call.who.personId);
  return list(call, call.params.id);
});
