import { findBinByCode } from '../../db/repositories/bin.ts';
import { refuse } from '../../refusal.ts';
import { route } from '../../routing/route.ts';

export const readBinCard = route('readBinCard', (call) => {
  const bin = findBinByCode(call.store, call.params.code);
  if (bin === undefined) throw refuse('not-found');
  return { id: bin.id, code: bin.code, name: bin.name };
});
