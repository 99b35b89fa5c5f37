/** Duties of the coming weeks gathered into shifts that could be made; what was dropped stays out until it changes. */
import type { DueDuty, DutiesDropped, ShiftProposal, ShiftProposals } from '@middenry/contract';
import { type GatheredShifts, gatherShifts, type ProposedShift, type SiteHours, weekdayOf } from '@middenry/domain';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import { listBins } from '../db/repositories/bin.ts';
import { type DroppedDutyRow, dropDuty, droppedDuties, takeUpDuty } from '../db/repositories/dropped-duty.ts';
import { dutiesOfShifts, type ShiftRow, shiftsBetween } from '../db/repositories/shift.ts';
import { listSites, type SiteRow } from '../db/repositories/site.ts';
import { write } from '../db/store.ts';
import { refuseField } from '../refusal.ts';
import { listDuties, urgencyNumber, urgencyWord } from './duties.ts';
import { addDays, daysBetween, localTimeAt, startOf } from './local-time.ts';
import { groupBy, leadsSite } from './shift-shape.ts';
import { minuteOfDay, siteHours, timeOfMinute } from './site-times.ts';

type Answer = z.output<typeof ShiftProposals>;

const DAYS_PER_WEEK = 7;
/** What people can be asked for in one shift. */
const MOST_MINUTES = 120;
const MOST_PLACES = 6;
const LEAST_PLACES = 2;
/** People need time to read of a shift and get there. */
const NOTICE_MINUTES = 60;
const QUARTER_HOUR = 15;
/** A forecast moves by a day or two from one morning to the next; that is not another duty. */
const SAME_DUE_DAYS = 3;

export async function listProposals(call: Signed, query: { siteId?: string | undefined; weeks: number }): Promise<Answer> {
  const sites = listSites(call.store).filter(
    (site) => !site.archived && leadsSite(call.who, site.id) && (query.siteId === undefined || query.siteId === site.id),
  );
  const answer: Answer = { items: [], unplaced: [], dropped: [] };
  for (const site of sites) {
    const { items, unplaced, dropped } = await proposalsAt(call, site, query.weeks);
    answer.items.push(...items);
    answer.unplaced.push(...unplaced);
    answer.dropped.push(...dropped);
  }
  return answer;
}

async function proposalsAt(call: Signed, site: SiteRow, weeks: number): Promise<Answer> {
  const today = call.today(site.timeZone);
  const lastDate = addDays(today, weeks * DAYS_PER_WEEK);
  const due = await listDuties(call, { siteId: site.id, days: weeks * DAYS_PER_WEEK });
  const waiting = due.filter(({ kind, plannedOn, last }) => kind !== 'rest' && plannedOn === null && last?.result !== 'done');
  const isDropped = droppedAmong(droppedDuties(call.store));
  const open = waiting.filter((duty) => !isDropped(duty));
  const hours = hoursFromNow(call, site, today);
  const gathered = gatherShifts({
    duties: open.map(({ binId, kind, fromOn, dueOn, overdueOn, actNow }) => ({
      ...{ binId, kind, actNow },
      ...{ fromDate: fromOn, dueDate: dueOn, overdueDate: overdueOn },
    })),
    bins: listBins(call.store, { siteId: site.id }).map(({ id, siteId, exposure }) => ({ id, siteId, area: exposure })),
    hours: [hours],
    standing: standingShifts(call, site, { today, lastDate }),
    settings: { today, lastDate, mostMinutes: MOST_MINUTES, mostPlaces: MOST_PLACES, leastPlaces: LEAST_PLACES },
  });
  return {
    items: gathered.shifts.map((shift) => proposalShape(call, site, shift, { today, due: open, hours })),
    unplaced: gathered.unplaced.map(({ duty, reason }) => ({ duty: dutyOf(open, duty), reason })),
    dropped: waiting.filter(isDropped),
  };
}

const dutyOf = (due: readonly DueDuty[], { binId, kind }: GatheredShifts['unplaced'][number]['duty']): DueDuty =>
  due.find((duty) => duty.binId === binId && duty.kind === kind)!;

/** Dropped and still as it was: due at about the same day and no more pressing. */
const droppedAmong =
  (rows: readonly DroppedDutyRow[]) =>
  ({ binId, kind, dueOn, urgency }: DueDuty): boolean => {
    const row = rows.find((each) => each.binId === binId && each.kind === kind);
    return row !== undefined && urgencyNumber(urgency) <= row.urgency && Math.abs(daysBetween(row.dueOn, dueOn)) < SAME_DUE_DAYS;
  };

/** Today is a closed day when nobody could get there before it closes. */
function hoursFromNow(call: Signed, site: SiteRow, today: string): SiteHours {
  const hours = siteHours(call.store, site.id);
  const span = hours.open.find(({ weekday }) => weekday === weekdayOf(today));
  const earliest = minuteOfDay(localTimeAt(call.now, site.timeZone)) + 2 * NOTICE_MINUTES;
  if (span !== undefined && earliest <= span.toMinute) return hours;
  return { ...hours, closed: [...hours.closed, { from: today, to: today }] };
}

function standingShifts(call: Signed, site: SiteRow, range: { today: string; lastDate: string }) {
  const rows = shiftsBetween(call.store, { from: range.today, to: range.lastDate, siteId: site.id, personId: null }).filter(
    (row: ShiftRow) => row.cancelledAt === null && startOf(row).startsAt > call.now,
  );
  const duties = groupBy(
    dutiesOfShifts(
      call.store,
      rows.map(({ id }) => id),
    ),
    ({ shiftId }) => shiftId,
  );
  return rows.map(({ id, siteId, localDate, localTime, minutes, places }) => ({
    ...{ id, siteId, localDate, minutes, places },
    fromMinute: minuteOfDay(localTime),
    duties: duties.get(id) ?? [],
  }));
}

interface ShapeScene {
  readonly today: string;
  readonly due: readonly DueDuty[];
  readonly hours: SiteHours;
}

function proposalShape(call: Signed, site: SiteRow, shift: ProposedShift, scene: ShapeScene): ShiftProposal {
  const { standingId, localDate, minutes, places, urgency } = shift;
  return {
    key: [site.id, localDate, standingId ?? 'new', ...shift.duties.map(({ binId, kind }) => `${binId}:${kind}`).sort()].join('|'),
    ...{ siteId: site.id, siteName: site.name, standingId, localDate, minutes, places },
    localTime: timeOfMinute(standingId === null ? beginOf(call, site, shift, scene) : shift.fromMinute),
    urgency: urgencyWord(urgency),
    duties: shift.duties.map((duty) => ({
      ...{ binId: duty.binId, kind: duty.kind, dueOn: duty.dueDate, minutes: duty.minutes, late: duty.late },
      binCode: scene.due.find(({ binId }) => binId === duty.binId)!.binCode,
      urgency: urgencyWord(duty.urgency),
    })),
  };
}

/** At opening time; today not before people can be there, nor so late that it would not be over in time. */
function beginOf(call: Signed, site: SiteRow, { localDate, fromMinute, minutes }: ProposedShift, { today, hours }: ShapeScene): number {
  if (localDate !== today) return fromMinute;
  const earliest = minuteOfDay(localTimeAt(call.now, site.timeZone)) + NOTICE_MINUTES;
  const toMinute = hours.open.find(({ weekday }) => weekday === weekdayOf(localDate))?.toMinute ?? fromMinute + minutes;
  const wished = Math.max(fromMinute, Math.ceil(earliest / QUARTER_HOUR) * QUARTER_HOUR);
  return Math.max(fromMinute, Math.min(wished, Math.max(earliest, toMinute - minutes)));
}

/** Remembered with the day it was due and how pressing it was, so that a change brings it back. */
export async function dropDuties(call: Signed, body: z.output<typeof DutiesDropped>): Promise<Answer> {
  const due = await listDuties(call, { siteId: body.siteId, days: MOST_DAYS });
  const droppedAt = call.now.toISOString();
  write(call.store, () => {
    body.duties.forEach(({ binId, kind }, at) => {
      const duty = due.find((each) => each.binId === binId && each.kind === kind);
      if (duty === undefined) throw refuseField(`/duties/${at}/kind`, 'is not due at this site');
      const row = { binId, kind, dueOn: duty.dueOn, urgency: urgencyNumber(duty.urgency) };
      if (body.back) takeUpDuty(call.store, row);
      else dropDuty(call.store, { ...row, personId: call.who.personId, droppedAt });
    });
    call.audit(body.back ? 'duties.taken-up' : 'duties.dropped', body.siteId, { duties: body.duties.length });
  });
  return listProposals(call, { siteId: body.siteId, weeks: USUAL_WEEKS });
}
const MOST_DAYS = 90;
const USUAL_WEEKS = 4;
