import type { DutyKind } from '@middenry/domain';
import { need } from '../api/call.ts';
import { act } from '../errors/act.ts';
import { addDays } from '../format/days.ts';
import type { Bin } from './types.ts';

const AHEAD_DAYS = 28;
const LONGEST_NOTE = 2000;

/** Puts duties of a bin on the next shift at its site, with a line in its note; null where no shift is to come. */
export async function putOnNextShift(
  send: typeof fetch,
  bin: Bin,
  work: { readonly kinds: readonly DutyKind[]; readonly line?: string; readonly today: string },
  form: FormData,
) {
  const query = { siteId: bin.siteId, from: work.today, to: addDays(work.today, AHEAD_DAYS) };
  const shifts = await need(send, 'listShifts', { query });
  const next = shifts.items.find(({ over, cancelled }) => !over && !cancelled);
  if (next === undefined) return null;
  const missing = work.kinds.filter((kind) => !next.duties.some((duty) => duty.binId === bin.id && duty.kind === kind));
  const duties = [...next.duties, ...missing.map((kind) => ({ binId: bin.id, kind }))];
  const line = work.line === undefined ? '' : `${bin.code}: ${work.line}`;
  const note = [next.note, next.note.includes(line) ? '' : line].filter(Boolean).join('\n').slice(0, LONGEST_NOTE);
  const outcome = await act(send, 'changeShift', { params: { id: next.id }, body: { duties, note }, ifMatch: next.revision }, form);
  return outcome.ok ? { ok: true as const, shiftId: next.id } : outcome;
}
