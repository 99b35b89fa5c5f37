import { weekdayOf } from '../rota/rules.ts';
import {
  type BinSpot,
  DUTY_MINUTES,
  type DueDuty,
  type DutyUrgency,
  type GatheredDuty,
  type GatheredShifts,
  type GatherSettings,
  type ProposedShift,
  type SiteHours,
  type StandingShift,
  type UnplacedReason,
  WALK_MINUTES,
} from './shifts-types.ts';

export interface GatherScene {
  readonly duties: readonly DueDuty[];
  readonly bins: readonly BinSpot[];
  readonly hours: readonly SiteHours[];
  readonly standing: readonly StandingShift[];
  readonly settings: GatherSettings;
}

/** A shift being filled. */
interface Draft {
  readonly standing: StandingShift | null;
  readonly siteId: string;
  readonly localDate: string;
  readonly fromMinute: number;
  /** Work that fits in, over all places [min]. */
  readonly roomMinutes: number;
  readonly duties: GatheredDuty[];
}

/**
 * Duties that fall due, gathered into shifts: urgent ones at once, then standing shifts, then as few new ones as the windows let. The duty that is due
 * first opens a shift on the last open day that still is in time, an urgent one on the first; whatever else can be done there that day
 * comes along, urgent first, near bins before far ones. Never food and harvest at one bin on one day.
 *
 * @shape scene -> shifts, duties without one
 * @returns Each duty once, in a shift or with the reason why not
 * @source none: earliest deadline first, textbook method
 */
export function gatherShifts(scene: GatherScene): GatheredShifts {
  const pending = scene.duties.filter(({ kind }) => kind !== 'rest').sort((one, other) => leadOrder(scene, one, other));
  const drafts = scene.standing
    .filter(({ localDate }) => scene.settings.today <= localDate && localDate <= scene.settings.lastDate)
    .sort((one, other) => compare(one.localDate, other.localDate) || one.fromMinute - other.fromMinute || compare(one.id, other.id))
    .map((standing) => draftOfStanding(scene, standing));
  const unplaced: { duty: DueDuty; reason: UnplacedReason }[] = [];
  const placeWhile = (isNext: (duty: DueDuty) => boolean): void => {
    for (let lead = pending[0]; lead && isNext(lead); lead = pending[0]) {
      const placed = placeLead(scene, drafts, lead);
      if (typeof placed === 'string') {
        pending.shift();
        unplaced.push({ duty: lead, reason: placed });
      } else fill(scene, drafts, placed, { pending, lead });
    }
  };
  placeWhile((duty) => urgencyOf(duty, scene.settings.today) > 1);
  for (const draft of drafts.filter(({ standing }) => standing !== null)) fill(scene, drafts, draft, { pending, lead: null });
  placeWhile(() => true);
  const used = drafts
    .filter(({ duties }) => duties.length > 0)
    .sort(
      (one, other) => compare(one.localDate, other.localDate) || compare(one.siteId, other.siteId) || one.fromMinute - other.fromMinute,
    );
  return { shifts: used.map((draft) => shiftOfDraft(scene, draft)), unplaced };
}

const compare = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);

/** How pressing a duty is on a day. */
export function urgencyOf(duty: DueDuty, onDate: string): DutyUrgency {
  if (duty.actNow || onDate > duty.overdueDate) return 3;
  return onDate > duty.dueDate ? 2 : 1;
}

const leadOrder = ({ settings: { today } }: GatherScene, one: DueDuty, other: DueDuty): number =>
  urgencyOf(other, today) - urgencyOf(one, today) ||
  compare(one.dueDate, other.dueDate) ||
  compare(one.binId, other.binId) ||
  compare(one.kind, other.kind);

const spotOf = ({ bins }: GatherScene, binId: string): BinSpot => {
  const spot = bins.find(({ id }) => id === binId);
  if (!spot) throw new RangeError(`Cannot gather duties as every bin must be known: current value is ${binId}`);
  return spot;
};

/** Minutes of a duty at its site: the site's own, or the usual ones. */
function minutesOf({ hours }: Pick<GatherScene, 'hours'>, siteId: string, kind: DueDuty['kind']): number {
  return hours.find((one) => one.siteId === siteId)?.dutyMinutes?.[kind] ?? DUTY_MINUTES[kind].value;
}

const draftOfStanding = (scene: GatherScene, standing: StandingShift): Draft => ({
  standing,
  siteId: standing.siteId,
  localDate: standing.localDate,
  fromMinute: standing.fromMinute,
  roomMinutes:
    standing.minutes * standing.places - standing.duties.reduce((sum, { kind }) => sum + minutesOf(scene, standing.siteId, kind), 0),
  duties: [],
});

/** Opening span of a site on a date, or null when it is closed. */
function openSpan({ hours }: GatherScene, siteId: string, date: string): { fromMinute: number; toMinute: number } | null {
  const site = hours.find((one) => one.siteId === siteId);
  if (!site || site.closed.some(({ from, to }) => from <= date && date <= to)) return null;
  return site.open.find(({ weekday }) => weekday === weekdayOf(date)) ?? null;
}

function nextDate(date: string): string {
  const next = new Date(`${date}T00:00:00Z`);
  next.setUTCDate(next.getUTCDate() + 1);
  return next.toISOString().slice(0, date.length);
}

function datesBetween(from: string, to: string): string[] {
  const dates: string[] = [];
  for (let date = from; date <= to; date = nextDate(date)) dates.push(date);
  return dates;
}

const earlier = (one: string, other: string): string => (compare(one, other) <= 0 ? one : other);

/** Days for a duty, best first: in time as late as may be, so that others can come along; urgent or late as soon as may be. */
function daysFor(scene: GatherScene, duty: DueDuty): string[] {
  const { today, lastDate } = scene.settings;
  const start = duty.actNow || duty.fromDate < today ? today : duty.fromDate;
  const inTime = datesBetween(start, earlier(duty.dueDate, lastDate));
  const after = datesBetween(inTime.length > 0 ? nextDate(inTime.at(-1) ?? start) : start, lastDate);
  return [...(urgencyOf(duty, today) === 1 ? inTime.reverse() : inTime), ...after];
}

/** A shift with room for this duty, there already or new; or why there is none. */
function placeLead(scene: GatherScene, drafts: Draft[], lead: DueDuty): Draft | UnplacedReason {
  const { siteId } = spotOf(scene, lead.binId);
  let reason: UnplacedReason = 'site-closed';
  for (const date of daysFor(scene, lead)) {
    const there = drafts.filter((draft) => draft.siteId === siteId && draft.localDate === date);
    const fitting = there.find((draft) => obstacleTo(scene, drafts, draft, lead) === null);
    if (fitting) return fitting;
    const made = there.some(({ standing }) => standing === null) ? null : newDraft(scene, siteId, date);
    const obstacle = made && obstacleTo(scene, drafts, made, lead);
    if (made && obstacle === null) {
      drafts.push(made);
      return made;
    }
    if (clashesThatDay(drafts, date, lead)) reason = 'feed-or-harvest';
    else if (made) reason = 'too-long';
    else if (there.length > 0) reason = 'no-room';
  }
  return reason;
}

/** An empty shift at opening time, or null on a closed day. */
function newDraft(scene: GatherScene, siteId: string, localDate: string): Draft | null {
  const span = openSpan(scene, siteId, localDate);
  if (!span) return null;
  const { mostMinutes, mostPlaces } = scene.settings;
  const roomMinutes = Math.min(mostMinutes, span.toMinute - span.fromMinute) * mostPlaces;
  return { standing: null, siteId, localDate, fromMinute: span.fromMinute, roomMinutes, duties: [] };
}

function obstacleTo(scene: GatherScene, drafts: readonly Draft[], draft: Draft, duty: DueDuty): 'no-room' | 'feed-or-harvest' | null {
  if (clashesThatDay(drafts, draft.localDate, duty)) return 'feed-or-harvest';
  return workOf(scene, [...draft.duties, duty]) > draft.roomMinutes ? 'no-room' : null;
}

/** Food just put in would come out with the harvest. */
function clashesThatDay(drafts: readonly Draft[], localDate: string, { binId, kind }: DueDuty): boolean {
  const other = kind === 'feed' ? 'harvest' : kind === 'harvest' ? 'feed' : null;
  return drafts
    .filter((draft) => draft.localDate === localDate)
    .flatMap(({ duties, standing }) => [...duties, ...(standing?.duties ?? [])])
    .some((there) => there.binId === binId && (there.kind === other || there.kind === kind));
}

/** Minutes of all duties, and of the walks between areas. */
function workOf(scene: GatherScene, duties: readonly DueDuty[]): number {
  const areas = new Set(duties.map(({ binId }) => spotOf(scene, binId).area));
  const walks = Math.max(0, areas.size - 1) * WALK_MINUTES.value;
  return duties.reduce((sum, { binId, kind }) => sum + minutesOf(scene, spotOf(scene, binId).siteId, kind), walks);
}

interface Fill {
  readonly pending: DueDuty[];
  readonly lead: DueDuty | null;
}

/** Takes along whatever may be done that day in time and still fits, the lead before all others. */
function fill(scene: GatherScene, drafts: readonly Draft[], draft: Draft, { pending, lead }: Fill): void {
  const { siteId, localDate } = draft;
  const waiting = pending
    .filter((duty) => duty !== lead && spotOf(scene, duty.binId).siteId === siteId)
    .filter((duty) => duty.fromDate <= localDate && localDate <= duty.dueDate);
  const lastChance = new Set(
    waiting.filter(({ dueDate }) => !datesBetween(nextDate(localDate), dueDate).some((date) => openSpan(scene, siteId, date))),
  );
  for (let next = lead ?? nextOf(scene, draft, waiting, lastChance); next; next = nextOf(scene, draft, waiting, lastChance)) {
    if (waiting.includes(next)) waiting.splice(waiting.indexOf(next), 1);
    if (obstacleTo(scene, drafts, draft, next) !== null) continue;
    pending.splice(pending.indexOf(next), 1);
    draft.duties.push({
      ...next,
      minutes: minutesOf(scene, siteId, next.kind),
      urgency: urgencyOf(next, scene.settings.today),
      late: localDate > next.dueDate,
    });
  }
}

/** Urgent first, then what has no later day in time, then the same bin, the same area, and what is due first. */
function nextOf(scene: GatherScene, draft: Draft, waiting: readonly DueDuty[], lastChance: ReadonlySet<DueDuty>): DueDuty | undefined {
  const { today } = scene.settings;
  const nearness = (duty: DueDuty): number => {
    if (draft.duties.some(({ binId }) => binId === duty.binId)) return 0;
    const { area } = spotOf(scene, duty.binId);
    return draft.duties.some(({ binId }) => spotOf(scene, binId).area === area) ? 1 : 2;
  };
  return [...waiting].sort(
    (one, other) =>
      urgencyOf(other, today) - urgencyOf(one, today) ||
      Number(lastChance.has(other)) - Number(lastChance.has(one)) ||
      nearness(one) - nearness(other) ||
      leadOrder(scene, one, other),
  )[0];
}

const QUARTER_HOUR = 15;

function shiftOfDraft(scene: GatherScene, { standing, siteId, localDate, fromMinute, roomMinutes, duties }: Draft): ProposedShift {
  const { mostPlaces, leastPlaces } = scene.settings;
  const work = workOf(scene, duties);
  const longest = Math.floor(roomMinutes / mostPlaces);
  const places = Math.min(mostPlaces, Math.max(leastPlaces, Math.ceil(work / longest)));
  const minutes = Math.min(longest, Math.ceil(work / places / QUARTER_HOUR) * QUARTER_HOUR);
  const areaOf = ({ binId }: DueDuty): string => spotOf(scene, binId).area;
  return {
    standingId: standing?.id ?? null,
    siteId,
    localDate,
    fromMinute,
    minutes: standing?.minutes ?? minutes,
    places: standing?.places ?? places,
    duties: [...duties].sort(
      (one, other) =>
        other.urgency - one.urgency ||
        compare(areaOf(one), areaOf(other)) ||
        compare(one.binId, other.binId) ||
        compare(one.kind, other.kind),
    ),
    urgency: Math.max(1, ...duties.map(({ urgency }) => urgency)) as DutyUrgency,
  };
}
