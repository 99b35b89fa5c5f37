/** Duties that fall due: windows of the model as dates, with who plans to do them and what became of them. */
import type { DueDuty } from '@middenry/contract';
import { DUTY_FACTS, DUTY_OF_REMEDY, DUTY_URGENCIES, type DutyKind, type DutyUrgency, type Outlook, urgencyOf } from '@middenry/domain';
import type { Context } from '../context.ts';
import { type BinRow, findBin, listBins } from '../db/repositories/bin.ts';
import { plannedDuties, resultsSince } from '../db/repositories/duty-result.ts';
import { findSite } from '../db/repositories/site.ts';
import { refuse } from '../refusal.ts';
import { addDays, localDateAt, startOf } from './local-time.ts';
import { briefFor } from './outlook-cache.ts';
import { datesFrom } from './outlook-shape.ts';
import { readSiteTimes } from './site-times.ts';

/** A shift that nobody spoke of any more is long over; results older than this say nothing of a window of today. */
const LOOK_BACK_DAYS = 120;
const MS_PER_MINUTE = 60_000;

export interface DutyQuery {
  readonly siteId?: string | undefined;
  readonly binId?: string | undefined;
  readonly days: number;
}

export async function listDuties(call: Context, { siteId, binId, days }: DutyQuery): Promise<DueDuty[]> {
  const items: DueDuty[] = [];
  const known = whatIsKnown(call);
  for (const bin of binsAsked(call, siteId, binId)) {
    const { brief, today } = await briefFor(call, bin);
    const ahead = addDays(today, days);
    items.push(
      ...dutiesAt(bin, brief, today, known).filter(({ fromOn, actNow, last }) => actNow || last?.result === 'missed' || fromOn <= ahead),
    );
  }
  return items.sort(
    (a, b) =>
      DUTY_URGENCIES.indexOf(b.urgency) - DUTY_URGENCIES.indexOf(a.urgency) ||
      compare(a.overdueOn, b.overdueOn) ||
      compare(a.dueOn, b.dueOn) ||
      compare(a.binCode, b.binCode),
  );
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function binsAsked({ store }: Context, siteId: string | undefined, binId: string | undefined): readonly BinRow[] {
  if (siteId !== undefined && findSite(store, siteId) === undefined) throw refuse('not-found');
  if (binId === undefined) return listBins(store, { siteId }).filter(({ state }) => state !== 'retired');
  const bin = findBin(store, binId);
  if (bin === undefined || (siteId !== undefined && bin.siteId !== siteId)) throw refuse('not-found');
  return bin.state === 'retired' ? [] : [bin];
}

export interface KnownDuties {
  readonly planned: ReturnType<typeof plannedDuties>;
  readonly results: ReturnType<typeof resultsSince>;
  readonly minutesOf: (siteId: string, kind: DutyKind) => number;
}

/** Read once for all bins. */
export function whatIsKnown(call: Context): KnownDuties {
  const { store, now } = call;
  const day = localDateAt(now, 'UTC');
  const isAhead = (row: ReturnType<typeof plannedDuties>[number]) =>
    startOf(row).startsAt.getTime() + row.minutes * MS_PER_MINUTE > now.getTime();
  const times = new Map<string, ReturnType<typeof readSiteTimes>>();
  const minutesOf = (siteId: string, kind: DutyKind): number => {
    const known = times.get(siteId) ?? readSiteTimes(call, siteId);
    times.set(siteId, known);
    return known.minutes.find((row) => row.kind === kind)?.minutes ?? 0;
  };
  return {
    planned: plannedDuties(store, addDays(day, -1)).filter(isAhead),
    results: resultsSince(store, addDays(day, -LOOK_BACK_DAYS)),
    minutesOf,
  };
}

/** What an outlook says of work. */
type SaysOfWork = Pick<Outlook, 'duties' | 'signals'>;

/** Duties of one bin. One that was missed on a shift is at least past due, however wide its window. */
export function dutiesAt(bin: BinRow, outlook: SaysOfWork, today: string, { planned, results, minutesOf }: KnownDuties): DueDuty[] {
  const dateOf = datesFrom(bin.startedOn);
  const asked = askedNow(outlook);
  return outlook.duties.map(({ kind, why, fromDay, dueDay, overdueDay }) => {
    const isThis = (row: { readonly binId: string; readonly kind: DutyKind }) => row.binId === bin.id && row.kind === kind;
    const window = { fromOn: dateOf(fromDay), dueOn: dateOf(dueDay), overdueOn: dateOf(overdueDay) };
    const actNow = asked.has(kind);
    const last = results.find((row) => isThis(row) && speaksOf(row, window.fromOn));
    const plan = planned.find(isThis);
    const isMissed = last?.result === 'missed';
    const due = { binId: bin.id, kind, fromDate: window.fromOn, dueDate: window.dueOn, overdueDate: window.overdueOn, actNow };
    const urgency = Math.max(urgencyOf(due, today), isMissed ? 2 : 1) as DutyUrgency;
    return {
      ...{ binId: bin.id, binCode: bin.code, binName: bin.name, siteId: bin.siteId, siteName: bin.siteName, kind, ...window, why, actNow },
      ifMissed: DUTY_FACTS[kind].ifMissed,
      minutes: minutesOf(bin.siteId, kind),
      urgency: urgencyWord(urgency),
      plannedOn: plan === undefined ? null : { shiftId: plan.shiftId, localDate: plan.localDate },
      last: last === undefined ? null : { shiftId: last.shiftId, localDate: last.localDate, result: last.result },
    };
  });
}

/** What was said since the window began; and what was not done stays so until the log has it, whatever the window does meanwhile. */
const speaksOf = (row: KnownDuties['results'][number], fromOn: string): boolean =>
  row.localDate >= fromOn || (row.result !== 'done' && row.notedSince === 0);

export const urgencyWord = (urgency: DutyUrgency): DueDuty['urgency'] => DUTY_URGENCIES[urgency - 1]!;
export const urgencyNumber = (word: DueDuty['urgency']): DutyUrgency => (DUTY_URGENCIES.indexOf(word) + 1) as DutyUrgency;

/** Kinds of work that the first remedy of a signal in act asks for. */
function askedNow({ signals }: SaysOfWork): ReadonlySet<DutyKind> {
  const kinds = signals.filter(({ band }) => band === 'act').map(({ remedies }) => remedies[0] && DUTY_OF_REMEDY[remedies[0].id]);
  return new Set(kinds.filter((kind) => kind !== undefined));
}
