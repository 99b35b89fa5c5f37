/** Whether a bin is active, resting or retired follows from what was noted of it, so that undoing the note undoes it too. */
import type { Context } from '../context.ts';
import { updateBin } from '../db/repositories/bin.ts';
import { lastStateAction } from '../db/repositories/entry-care.ts';
import type { EntryDetail } from '../db/repositories/entry-types.ts';

const STATE_AFTER = { rested: 'resting', woken: 'active', retired: 'retired' } as const;

export function settlesBin(detail: EntryDetail): boolean {
  return detail.kind === 'care' && detail.action in STATE_AFTER;
}

export function settleBinState(call: Context, binId: string): void {
  const action = lastStateAction(call.store, binId);
  const state = action === null ? 'active' : STATE_AFTER[action];
  updateBin(call.store, binId, { state });
  call.audit('bin.state', binId, { state });
}
