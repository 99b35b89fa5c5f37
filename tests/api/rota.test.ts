import type { RotaRun } from '@middenry/contract';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { rotaScene } from '../../apps/api/src/services/rota-scene.ts';
import { highsSolver, type OwnSolver } from '../../apps/api/src/solver/highs-solver.ts';
import { rotaFaults } from '../../packages/domain/src/rota/check.ts';
import { type Cast, freshId, openCast, PEOPLE, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
beforeEach(() => {
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
});
afterAll(() => cast.close());

/** Each test has a week of its own, so that none sees the shifts of another. */
let monday = new Date('2026-12-07T00:00:00Z');
function nextWeek(): { day(weekday: number): string; range: { from: string; to: string } } {
  monday = new Date(monday);
  monday.setUTCDate(monday.getUTCDate() + 7);
  const start = new Date(monday);
  const day = (weekday: number): string => {
    const date = new Date(start);
    date.setUTCDate(date.getUTCDate() + weekday - 1);
    return date.toISOString().slice(0, 10);
  };
  return { day, range: { from: day(1), to: day(7) } };
}

async function shift(localDate: string, change: object = {}): Promise<string> {
  const id = freshId();
  const usual = { siteId: SITES.meadow, title: 'Round', localTime: '10:00', minutes: 60, places: 1 };
  const answer = await cast.call('owner', 'POST', '/api/shifts', { id, localDate, ...usual, ...change });
  expect([answer.status, answer.text]).toEqual([201, answer.text]);
  return id;
}
const take = (who: PersonKey, shiftId: string) => cast.call(who, 'POST', `/api/shifts/${shiftId}/sign-ups`, { id: freshId() });
const say = (who: PersonKey, body: object) => cast.call(who, 'PUT', `/api/people/${PEOPLE[who].id}/availability`, body);
async function fill(range: object): Promise<RotaRun> {
  const answer = await cast.call('coordinator', 'POST', '/api/rota/runs', { id: freshId(), ...range });
  expect([answer.status, answer.text]).toEqual([201, answer.text]);
  return answer.body;
}
const send = (run: RotaRun, proposalIds?: string[]) =>
  cast.call('coordinator', 'POST', `/api/rota/runs/${run.id}/invitations`, { id: freshId(), proposalIds });
const readRun = async ({ id }: RotaRun): Promise<RotaRun> => (await cast.call('coordinator', 'GET', `/api/rota/runs/${id}`)).body;
const accept = (who: PersonKey, id: string, signUpId = freshId()) =>
  cast.call(who, 'POST', `/api/invitations/${id}/accept`, { id: signUpId });
const invitations = async (who: PersonKey) => (await cast.call(who, 'GET', '/api/invitations')).body.items;
const asked = (run: RotaRun) => run.proposals.map(({ person, shift: { id } }) => [person.id, id]);
const keyOf = (id: string): PersonKey => (Object.keys(PEOPLE) as PersonKey[]).find((key) => PEOPLE[key].id === id)!;

/** Only these are asked in the tests: the rest are away until the end of time. */
async function onlyAsk(...who: PersonKey[]): Promise<void> {
  for (const key of ['owner', 'coordinator', 'siteLead', 'volunteer', 'otherVolunteer'] as const) {
    const away = who.includes(key) ? [] : [{ from: '2026-01-01', to: '2199-12-31' }];
    await say(key, { away, weekly: [], skills: [], siteIds: [], wish: { count: 1, per: 'week' }, capPerWeek: null, capPerDay: null });
  }
}

describe('filling the gaps', () => {
  test('asks the one who may, with why, and never moves a sign-up', async () => {
    await onlyAsk('volunteer', 'otherVolunteer');
    await say('otherVolunteer', { weekly: [{ weekday: 3, from: '09:00', to: '12:00', liking: 'glad' }] });
    const { day, range } = nextWeek();
    const tuesday = await shift(day(2));
    const wednesday = await shift(day(3));
    const taken = await shift(day(5));
    await take('volunteer', taken);
    const run = await fill(range);
    expect([run.status, run.gap, run.gaps, run.conflicts]).toEqual(['optimal', 0, [], []]);
    expect(asked(run)).toEqual([
      [PEOPLE.volunteer.id, tuesday],
      [PEOPLE.otherVolunteer.id, wednesday],
    ]);
    expect(run.proposals[0]).toMatchObject({ why: ['only-one'], others: 0, wish: 1, heldBefore: 1, heldAfter: 2, state: 'proposed' });
    expect(run.proposals[1]).toMatchObject({ person: { name: 'Maren Quill' }, liking: 'glad', others: 1, heldBefore: 0, heldAfter: 1 });
    expect(run.proposals[1]?.why).toEqual(expect.arrayContaining(['furthest-below-wish', 'glad-then']));
    expect((await cast.call('owner', 'GET', `/api/shifts/${taken}`)).body.signUps).toMatchObject([{ personId: PEOPLE.volunteer.id }]);
    const rows = run.fairness!.rows.filter(({ person }) => person.id === PEOPLE.otherVolunteer.id);
    expect(rows).toMatchObject([{ wish: 1, possible: 1, heldBefore: 0, heldAfter: 1, shortfallBefore: 1, shortfallAfter: 0 }]);
    expect([run.fairness!.before.held, run.fairness!.after.held]).toEqual([1, 3]);
  });

  test('is judged by a checker that shares no code with it, from the stored answer', async () => {
    await onlyAsk('volunteer', 'otherVolunteer', 'siteLead');
    await say('siteLead', { skills: ['keys'], capPerWeek: 2, capPerDay: 1 });
    const { day, range } = nextWeek();
    const ids = await Promise.all([1, 2, 3, 4].map((weekday) => shift(day(weekday), { places: 2 })));
    await shift(day(2), { localTime: '10:30', siteId: SITES.school });
    await cast.call('owner', 'PUT', `/api/shifts/${ids[1]}/needs`, { needs: [{ skill: 'keys', places: 1 }] });
    await take('volunteer', ids[0]!);
    const { spec } = rotaScene(cast.store, cast.clock, { ...range, siteIds: [] });
    const run = await fill(range);
    const groupOf = (shiftId: string, skill: string | null): number =>
      spec.shifts.find(({ id }) => id === shiftId)!.places.findIndex(({ skills }) => (skills[0] ?? null) === skill);
    const proposals = run.proposals.map((one) => ({
      personId: one.person.id,
      shiftId: one.shift.id,
      group: groupOf(one.shift.id, one.skill),
    }));
    const possible = Object.fromEntries(run.fairness!.rows.map((row) => [row.person.id, row.possible]));
    const score = Object.fromEntries(run.stages.map(({ part, value }) => [part, value])) as never;
    expect(run.stages.every(({ proven }) => proven)).toBe(true);
    expect(proposals.some(({ shiftId, group }) => shiftId === ids[1] && group === 0)).toBe(true);
    expect(rotaFaults(spec, { proposals, possible, score })).toEqual([]);
  });

  test('says for each place left open whom which rule keeps away, and nothing of it to others', async () => {
    await onlyAsk('volunteer', 'siteLead');
    await say('siteLead', { weekly: [{ weekday: 1, from: '09:00', to: '12:00' }] });
    await say('volunteer', { capPerWeek: 0 });
    const { day, range } = nextWeek();
    const open = await shift(day(2), { siteId: SITES.school });
    const run = await fill(range);
    expect([run.status, run.proposals, run.counts.uncovered]).toEqual(['optimal', [], 1]);
    const [gap] = run.gaps;
    expect([gap?.shift.id, gap?.uncovered]).toEqual([open, 1]);
    const rulesOf = (who: PersonKey) => gap?.people.find(({ person }) => person.id === PEOPLE[who].id)?.hindrances.map(({ rule }) => rule);
    expect([rulesOf('siteLead'), rulesOf('volunteer'), rulesOf('owner')]).toEqual([
      ['other-site', 'not-available'],
      ['cap-week'],
      ['away'],
    ]);
    expect(gap?.rules.find(({ rule }) => rule === 'away')?.count).toBe(3);
    for (const who of ['volunteer', 'siteLead', 'pupil'] as const)
      expect((await cast.call(who, 'GET', `/api/rota/runs/${run.id}`)).status).toBe(403);
  });

  test('C19: asks cleared grown-ups first where pupils come, and says how many are still missing', async () => {
    await onlyAsk('volunteer', 'otherVolunteer', 'siteLead');
    await cast.call('owner', 'PATCH', `/api/people/${PEOPLE.siteLead.id}`, { cleared: true });
    const classId = freshId();
    await cast.call('owner', 'POST', '/api/classes', { id: classId, siteId: SITES.meadow, name: 'Year 7', ageBand: '9-12' });
    const { day, range } = nextWeek();
    const round = await shift(day(2), { places: 2, pupilPlaces: 20 });
    await cast.call('owner', 'POST', `/api/shifts/${round}/groups`, { id: freshId(), classId, pupils: 12 });
    const run = await fill(range);
    expect(run.proposals.map(({ person }) => person.id)).toContain(PEOPLE.siteLead.id);
    expect(run.proposals.find(({ person }) => person.id === PEOPLE.siteLead.id)?.why).toContain('counts-as-adult');
    expect(run.gaps).toMatchObject([{ shift: { id: round }, uncovered: 0, adultsMissing: 1 }]);
    expect(run.gaps[0]?.people.map(({ person }) => person.name).join()).not.toContain('pupils');
    expect(run.fairness!.rows.every(({ person }) => person.id.length === 36)).toBe(true);
  });

  test('names sign-ups that break a rule and fills the rest', async () => {
    await onlyAsk('volunteer', 'otherVolunteer');
    const { day, range } = nextWeek();
    const [one, other] = [await shift(day(2)), await shift(day(2), { localTime: '10:30' })];
    await take('volunteer', one);
    await take('volunteer', other);
    const open = await shift(day(4));
    const run = await fill(range);
    expect(run.status).toBe('infeasible');
    expect(run.conflicts).toMatchObject([{ rule: 'two-at-once', people: [{ id: PEOPLE.volunteer.id }] }]);
    expect(run.conflicts[0]?.shifts.map(({ id }) => id).sort()).toEqual([one, other].sort());
    expect(asked(run)).toEqual([[PEOPLE.otherVolunteer.id, open]]);
  });

  test('is one run however often it is sent, and refuses days that make no sense', async () => {
    const { range, day } = nextWeek();
    const body = { id: freshId(), ...range };
    const answers = [await cast.call('owner', 'POST', '/api/rota/runs', body), await cast.call('owner', 'POST', '/api/rota/runs', body)];
    expect(answers.map(({ status, body: { id } }) => [status, id])).toEqual([
      [201, body.id],
      [200, body.id],
    ]);
    const backwards = { id: freshId(), from: day(7), to: day(1) };
    expect((await cast.call('owner', 'POST', '/api/rota/runs', backwards)).body.errors[0].pointer).toBe('/to');
    const { items } = (await cast.call('owner', 'GET', '/api/rota/runs')).body;
    expect(items[0]).toMatchObject({ id: body.id, status: 'optimal', by: { name: PEOPLE.owner.name } });
  });
});

describe('invitations', () => {
  test('go out, are accepted without a word of why, and the place is taken', async () => {
    await onlyAsk('volunteer');
    const { day, range } = nextWeek();
    const open = await shift(day(2));
    const run = await fill(range);
    const sent = await send(run);
    expect([sent.status, sent.body.counts]).toMatchObject([201, { proposed: 0, invited: 1 }]);
    const mine = await invitations('volunteer');
    expect(mine).toMatchObject([{ shift: { id: open }, free: true, goodUntil: '2026-11-28T10:00:00.000Z' }]);
    expect(JSON.stringify(mine)).not.toMatch(/why|wish|others/);
    expect((await cast.call('volunteer', 'GET', '/api/messages')).body.items[0]).toMatchObject({
      kind: 'rota-invitation',
      facts: { invitationId: mine[0].id },
    });
    expect(await invitations('otherVolunteer')).toEqual([]);
    expect((await accept('otherVolunteer', mine[0].id)).status).toBe(404);
    const signUpId = freshId();
    const taken = await accept('volunteer', mine[0].id, signUpId);
    expect([taken.status, taken.body.signUps]).toMatchObject([201, [{ id: signUpId, personId: PEOPLE.volunteer.id }]]);
    expect((await accept('volunteer', mine[0].id, signUpId)).status).toBe(200);
    expect((await accept('volunteer', mine[0].id)).body.code).toBe('invitation-gone');
    expect((await readRun(run)).counts).toMatchObject({ invited: 0, accepted: 1 });
    expect(await invitations('volunteer')).toEqual([]);
  });

  test('keep their place from the next run while they are out; a no frees it for somebody else, and is not asked again', async () => {
    await onlyAsk('volunteer');
    const { day, range } = nextWeek();
    const open = await shift(day(2));
    const first = await fill(range);
    await send(first, [first.proposals[0]!.id]);
    await onlyAsk('volunteer', 'otherVolunteer');
    expect((await fill(range)).proposals).toEqual([]);
    const [{ id }] = await invitations('volunteer');
    expect((await cast.call('otherVolunteer', 'DELETE', `/api/invitations/${id}`)).status).toBe(404);
    expect((await cast.call('volunteer', 'DELETE', `/api/invitations/${id}`)).status).toBe(204);
    expect((await accept('volunteer', id)).body.code).toBe('invitation-gone');
    const second = await fill(range);
    expect(asked(second)).toEqual([[PEOPLE.otherVolunteer.id, open]]);
    await onlyAsk('volunteer');
    const third = await fill(range);
    expect(third.gaps[0]?.people.find(({ person }) => person.id === PEOPLE.volunteer.id)?.hindrances).toMatchObject([{ rule: 'declined' }]);
    expect((await readRun(second)).proposals.map(({ state }) => state)).toEqual(['replaced']);
    expect((await send(second)).body.counts.invited).toBe(0);
  });

  test('run out, are taken back, and are gone when the place is', async () => {
    await onlyAsk('volunteer');
    const { day, range } = nextWeek();
    await shift(day(1));
    const withdrawn = await shift(day(2));
    const full = await shift(day(3));
    const run = await fill(range);
    await send(run);
    const mine = await invitations('volunteer');
    const of = (shiftId: string) => mine.find((one: { shift: { id: string } }) => one.shift.id === shiftId).id;
    expect((await cast.call('coordinator', 'DELETE', `/api/invitations/${of(withdrawn)}`)).status).toBe(204);
    await take('siteLead', full);
    expect((await invitations('volunteer')).map(({ free }: { free: boolean }) => free)).toEqual([true, false]);
    expect((await accept('volunteer', of(full))).body.code).toBe('shift-full');
    expect((await readRun(run)).proposals.map(({ state }) => state)).toEqual(['invited', 'withdrawn', 'gone']);
    cast.clock.at = new Date('2026-11-28T10:00:00.000Z');
    expect((await readRun(run)).proposals.map(({ state }) => state)).toEqual(['run-out', 'withdrawn', 'run-out']);
    expect(await invitations('volunteer')).toEqual([]);
    expect((await accept('volunteer', mine[0].id)).body.code).toBe('invitation-gone');
  });

  test('C1: the last place goes to one, asked or not', async () => {
    await onlyAsk('volunteer', 'otherVolunteer');
    const { day, range } = nextWeek();
    const open = await shift(day(2));
    const run = await fill(range);
    await send(run);
    const { id, person } = run.proposals[0]!;
    const invited = keyOf(person.id);
    const rivals = (['owner', 'coordinator', 'siteLead', 'volunteer', 'otherVolunteer'] as const).filter((key) => key !== invited);
    const answers = await Promise.all([
      ...rivals.slice(0, 2).map((who) => take(who, open)),
      accept(invited, id),
      ...rivals.slice(2).map((who) => take(who, open)),
    ]);
    expect(answers.map(({ status }) => status).filter((status) => status === 201)).toHaveLength(1);
    expect(answers.filter(({ status }) => status !== 201).every(({ body }) => body.code === 'shift-full')).toBe(true);
    const { taken, places } = (await cast.call('owner', 'GET', `/api/shifts/${open}`)).body;
    expect([taken, places]).toEqual([1, 1]);
  });
});

describe('a search that does not end well', () => {
  const broken = async (solve: OwnSolver['solve']): Promise<RotaRun> => {
    const own = await openCast({ solver: { solve, close: async () => undefined } });
    try {
      const times = { localDate: '2026-12-08', localTime: '10:00', minutes: 60 };
      await own.call('owner', 'POST', '/api/shifts', { id: freshId(), siteId: SITES.meadow, title: 'Round', ...times, places: 1 });
      const run = { id: freshId(), from: '2026-12-07', to: '2026-12-13' };
      return (await own.call('owner', 'POST', '/api/rota/runs', run)).body;
    } finally {
      await own.close();
    }
  };

  test('keeps the best found with its gap', async () => {
    const { solve, close } = highsSolver();
    const run = await broken(async (model) => {
      const answer = await solve(model);
      if (model.limits.seconds === null || !('values' in answer)) return answer;
      return { ...answer, status: 'limit', bound: answer.objective - 1 };
    });
    await close();
    expect([run.status, run.proposals.length, run.gaps]).toEqual(['best-found', 1, []]);
    expect(run.gap).toBeGreaterThan(0);
  });

  test('says so when it broke off, and proposes nobody', async () => {
    const run = await broken(() => Promise.reject(new Error('the thread is gone')));
    expect([run.status, run.proposals, run.fairness]).toEqual(['stopped', [], null]);
  });
});
