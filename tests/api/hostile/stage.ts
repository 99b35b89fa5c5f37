import { createHash } from 'node:crypto';
import { rmSync } from 'node:fs';
import { endRotaRun, insertProposal, insertRotaRun, inviteProposal } from '../../../apps/api/src/db/repositories/rota.ts';
import type { Store } from '../../../apps/api/src/db/store.ts';
import { BINS, type Cast, copyOf, freshId, openCast, PEOPLE, type PersonKey, SITES } from '../../cast.ts';
import { makeCastings } from './castings-samples.ts';
import { makeConsent } from './consent-samples.ts';
import { makeFlagNote } from './flag-samples.ts';
import { makeSheetImport } from './import-samples.ts';
import { makePhoto } from './photo-samples.ts';

/** The cast with one of everything that a route can point at. */
export interface Stage {
  readonly cast: Cast;
  readonly shiftId: string;
  /** At the other site, so that a site lead of the first has nothing to do with it. */
  readonly schoolShiftId: string;
  readonly signUpId: string;
  /** The volunteer's place at the school, on offer to anybody. */
  readonly swapId: string;
  /** A run of the rota with one proposal that is not sent, and the other volunteer invited to the first shift. */
  readonly runId: string;
  readonly invitationId: string;
  readonly groupId: string;
  /** Drawn by wishes. */
  readonly seasonId: string;
  readonly intakeId: string;
  readonly schoolIntakeId: string;
  readonly schoolSeasonId: string;
  /** By which reports count. */
  readonly namedSeasonId: string;
  readonly schoolNamedSeasonId: string;
  readonly publishedSeasonId: string;
  readonly schoolPublishedSeasonId: string;
  readonly schoolGroupId: string;
  readonly feedingId: string;
  /** The volunteer's, one at each site. */
  readonly photoId: string;
  readonly schoolPhotoId: string;
  /** The volunteer's. */
  readonly consentId: string;
  readonly flagNoteId: string;
  readonly schoolFlagNoteId: string;
  /** Brought into the store by the volunteer, one at each site. */
  readonly castingsId: string;
  readonly schoolCastingsId: string;
  /** A spreadsheet that waits to be taken. */
  readonly importId: string;
  readonly containerId: string;
  readonly schoolContainerId: string;
  /** Of the other volunteer, at the school. */
  readonly waitingId: string;
  readonly classId: string;
  readonly schoolClassId: string;
  /** Cards of one pupil at each site. */
  readonly card: StageCard;
  readonly schoolCard: StageCard;
}

interface StageCard {
  readonly id: string;
  readonly classCode: string;
  readonly pictures: readonly string[];
}

export const feeding = (id: string): Record<string, unknown> => ({
  id,
  binId: BINS.tote,
  happenedAt: '2026-11-24T10:00:00Z',
  zone: 1,
  items: [{ materialId: 'apple', massKg: 0.5, how: 'weighed' }],
});

export const shift = (id: string, siteId: string, binId: string): Record<string, unknown> => ({
  id,
  siteId,
  title: 'Saturday bins',
  localDate: '2026-12-05',
  localTime: '10:00',
  minutes: 60,
  places: 2,
  pupilPlaces: 30,
  binIds: [binId],
  duties: [{ binId, kind: 'feed' }],
});

/** Far from the shifts of the stage, so that those are taken as they come. */
export const season = (id: string, siteId: string): Record<string, unknown> => ({
  id,
  siteId,
  name: 'Spring term',
  from: '2027-03-01',
  to: '2027-05-31',
  way: 'draw',
  opensAt: '2026-12-01T09:00:00Z',
});

export const namedSeason = (id: string, siteId: string | null): Record<string, unknown> => ({
  ...{ id, siteId, name: 'Autumn', from: '2026-09-01', to: '2026-11-30' },
});

export const container = (id: string, siteId: string): Record<string, unknown> => ({
  id,
  siteId,
  name: 'Blue caddy',
  litres: 7,
  tareKg: 0.4,
  fullKg: 3,
});

async function make(cast: Cast, who: keyof typeof PEOPLE, url: string, body: unknown): Promise<unknown> {
  const answer = await cast.call(who, 'POST', url, body);
  if (answer.status >= 300) throw new Error(`Cannot set the stage at ${url}: ${answer.text}`);
  return answer.body;
}

async function makePupil(cast: Cast, classId: string, siteId: string): Promise<StageCard> {
  await make(cast, 'owner', '/api/classes', { id: classId, siteId, name: 'Year 5', ageBand: '9-12' });
  return (await make(cast, 'owner', `/api/classes/${classId}/pupils`, { id: freshId(), name: 'Ivo K.' })) as StageCard;
}

const ON_STAGE = { isDemo: true, env: { SMTP_URL: 'smtp://127.0.0.1:1', MAIL_FROM: 'bins@example.org' } };

export async function openStage(): Promise<Stage> {
  const cast = await openCast(ON_STAGE);
  const ids = {
    shiftId: freshId(),
    schoolShiftId: freshId(),
    signUpId: freshId(),
    swapId: freshId(),
    runId: freshId(),
    invitationId: freshId(),
    groupId: freshId(),
    seasonId: freshId(),
    intakeId: freshId(),
    schoolIntakeId: freshId(),
    schoolSeasonId: freshId(),
    namedSeasonId: freshId(),
    schoolNamedSeasonId: freshId(),
    publishedSeasonId: freshId(),
    schoolPublishedSeasonId: freshId(),
    schoolGroupId: freshId(),
    feedingId: freshId(),
    photoId: freshId(),
    schoolPhotoId: freshId(),
    consentId: freshId(),
    flagNoteId: freshId(),
    schoolFlagNoteId: freshId(),
    castingsId: freshId(),
    schoolCastingsId: freshId(),
    importId: freshId(),
    containerId: freshId(),
    schoolContainerId: freshId(),
    waitingId: freshId(),
  };
  await make(cast, 'owner', '/api/shifts', shift(ids.shiftId, SITES.meadow, BINS.tote));
  await make(cast, 'owner', '/api/shifts', shift(ids.schoolShiftId, SITES.school, BINS.school));
  await make(cast, 'volunteer', `/api/shifts/${ids.shiftId}/sign-ups`, { id: ids.signUpId });
  await make(cast, 'volunteer', '/api/feedings', feeding(ids.feedingId));
  await make(cast, 'owner', '/api/containers', container(ids.containerId, SITES.meadow));
  await make(cast, 'owner', '/api/containers', container(ids.schoolContainerId, SITES.school));
  const classes = { classId: freshId(), schoolClassId: freshId() };
  const card = await makePupil(cast, classes.classId, SITES.meadow);
  const schoolCard = await makePupil(cast, classes.schoolClassId, SITES.school);
  await make(cast, 'otherVolunteer', `/api/shifts/${ids.schoolShiftId}/waiting`, { id: ids.waitingId });
  await make(cast, 'owner', '/api/sign-up-seasons', season(ids.seasonId, SITES.meadow));
  await make(cast, 'owner', '/api/sign-up-seasons', season(ids.schoolSeasonId, SITES.school));
  await make(cast, 'owner', '/api/seasons', namedSeason(ids.namedSeasonId, SITES.meadow));
  await make(cast, 'owner', '/api/seasons', namedSeason(ids.schoolNamedSeasonId, SITES.school));
  await make(cast, 'owner', '/api/published-seasons', namedSeason(ids.publishedSeasonId, SITES.meadow));
  await make(cast, 'owner', '/api/published-seasons', namedSeason(ids.schoolPublishedSeasonId, SITES.school));
  // As they are kept; working one out would run the model and the solver for every stage.
  const plan = JSON.stringify({ feedings: [], leftOver: [], beddingMissing: [], rounds: 0, bins: [] });
  const insertPlan = cast.store.sql('INSERT INTO intake_plan (id, site_id, local_date, plan, made_at) VALUES (?, ?, ?, ?, ?)');
  insertPlan.run(ids.intakeId, SITES.meadow, '2026-12-05', plan, '2026-11-25T10:00:00.000Z');
  insertPlan.run(ids.schoolIntakeId, SITES.school, '2026-12-05', plan, '2026-11-25T10:00:00.000Z');
  const schoolPlace = freshId();
  await make(cast, 'volunteer', `/api/shifts/${ids.schoolShiftId}/sign-ups`, { id: schoolPlace });
  await make(cast, 'volunteer', `/api/shifts/${ids.schoolShiftId}/swaps`, { id: ids.swapId, signUpId: schoolPlace });
  const group = (id: string, classId: string) => ({ id, classId, pupils: 8 });
  await make(cast, 'owner', `/api/shifts/${ids.shiftId}/groups`, group(ids.groupId, classes.classId));
  await make(cast, 'owner', `/api/shifts/${ids.schoolShiftId}/groups`, group(ids.schoolGroupId, classes.schoolClassId));
  makeRun(cast.store, ids);
  makePhoto(cast, ids.photoId, BINS.tote);
  makePhoto(cast, ids.schoolPhotoId, BINS.school);
  makeConsent(cast, ids.consentId);
  makeFlagNote(cast, ids.flagNoteId, BINS.tote);
  makeFlagNote(cast, ids.schoolFlagNoteId, BINS.school);
  makeCastings(cast, ids.castingsId, SITES.meadow);
  makeCastings(cast, ids.schoolCastingsId, SITES.school);
  makeSheetImport(cast, ids.importId);
  return { cast, ...ids, ...classes, card, schoolCard };
}

/** Put there by hand: a search for every stage would take longer than the test. */
function makeRun(store: Store, { runId, invitationId, shiftId }: { runId: string; invitationId: string; shiftId: string }): void {
  const at = '2026-11-25T09:00:00.000Z';
  const run = { id: runId, madeBy: PEOPLE.owner.id, madeAt: at, from: '2026-12-01', to: '2026-12-31', siteIds: '[]', seconds: 20 };
  insertRotaRun(store, run);
  const totals = { held: 1, largestShortfall: 0, squaredShortfalls: 0, peopleBelow: 0 };
  const fairness = { rows: [], before: totals, after: totals };
  const report = { gap: 0, stages: [], gaps: [], conflicts: [], fairness, weeks: { from: '2026-11-30', to: '2027-01-03' } };
  endRotaRun(store, runId, { status: 'optimal', at, report: JSON.stringify(report) });
  const reason = JSON.stringify({ why: ['only-one'], others: 0, wish: 1, heldBefore: 0, heldAfter: 1, liking: 'can' });
  const proposal = { runId, shiftId, skill: null, reason };
  insertProposal(store, { ...proposal, id: invitationId, personId: PEOPLE.otherVolunteer.id });
  insertProposal(store, { ...proposal, id: freshId(), personId: PEOPLE.siteLead.id });
  inviteProposal(store, invitationId, { at, until: '2026-11-28T09:00:00.000Z' });
}

/** Tables that note that something was tried, seen or told; a refused request, or a calendar that looks, may add to them, and to nothing else. */
const logTables = new Set(['audit', 'sign_in_try', 'sign_in_session', 'calendar_stamp']);

const quotedName = (name: string): string => `"${name.replaceAll('"', '""')}"`;

/** What SQLite itself counts of changes: rows written here, commits of other connections, and changes of the schema. */
function changesOf(store: Store): string {
  const asked = ['SELECT total_changes()', 'PRAGMA data_version', 'PRAGMA schema_version'];
  return asked.map((text) => store.sql(text).pluck().get()).join(' ');
}

const prints = new WeakMap<Store, { changes: string; readonly ofWhole: Map<boolean, string> }>();

/**
 * One hash over every row of every table that holds what people entered; `whole` counts those that note what was tried, too.
 * The rows are read again as soon as SQLite counts any change, even one that was taken back; most requests of these tests write nothing.
 */
export function fingerprint(store: Store, whole = false): string {
  const changes = changesOf(store);
  const known = prints.get(store);
  const print = known?.changes === changes ? known.ofWhole.get(whole) : undefined;
  if (print !== undefined) return print;
  const read = printOf(store, whole);
  if (known?.changes === changes) known.ofWhole.set(whole, read);
  else prints.set(store, { changes, ofWhole: new Map([[whole, read]]) });
  return read;
}

function printOf(store: Store, whole: boolean): string {
  const tables = store
    .sql("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name")
    .pluck()
    .all() as string[];
  const hash = createHash('sha256');
  for (const table of tables.filter((name) => whole || !logTables.has(name))) {
    const rows = store
      .sql(`SELECT * FROM ${quotedName(table)}`)
      .all()
      .map((row) => JSON.stringify(row));
    hash.update(`${table}\n${rows.sort().join('\n')}\n`);
  }
  return hash.digest('hex');
}

export interface Stages {
  /** The stage of the test before while nothing at all was written on it, else a new one: opening one costs more than most tests. */
  next(): Promise<Stage>;
  close(): Promise<void>;
}

/** The first is set as `open` says; those after it begin with a copy of its folder. */
export function stagesOf(open: () => Promise<Stage>): Stages {
  let first: { stage: Stage; copy: string } | undefined;
  let kept: { stage: Stage; print: string } | undefined;
  const put = async (stage?: Stage) => {
    await kept?.stage.cast.close();
    kept = undefined;
    if (stage === undefined) return;
    // A session is made at somebody's first request, and would count as a change.
    for (const who of Object.keys(PEOPLE) as PersonKey[]) stage.cast.cookie(who);
    kept = { stage, print: fingerprint(stage.cast.store, true) };
  };
  const another = async (): Promise<Stage> => {
    if (first !== undefined) return { ...first.stage, cast: await openCast({ ...ON_STAGE, from: first.copy }) };
    const stage = await open();
    first = { stage, copy: copyOf(stage.cast) };
    return stage;
  };
  const next = async () => {
    if (kept !== undefined && fingerprint(kept.stage.cast.store, true) === kept.print) return kept.stage;
    await put();
    const stage = await another();
    await put(stage);
    return stage;
  };
  const close = async () => {
    await put();
    if (first !== undefined) rmSync(first.copy, { recursive: true, force: true });
  };
  return { next, close };
}
