import { refuse } from '../../refusal.ts';
import { route } from '../../routing/route.ts';
import { readiness } from '../../services/readiness.ts';

export const ready = route('ready', (call) => {
  const reason = readiness(call);
  if (reason !== null) throw refuse('unavailable', { help: { reason } });
  return { ok: true };
});
