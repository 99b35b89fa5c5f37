import type { Problem } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import type { Kept } from '../phone/open.ts';
import { type Box, drain, type Outside, type Reply, waitMs } from './drain.ts';
import type { News } from './news.ts';

const problem = (status: number): Problem => ({ type: '', title: '', status, detail: '', code: 'zone-unknown', requestId: 'r' });
const entry = (seq: number, note = ''): Kept => ({
  ...{ seq, id: `e${seq}`, kind: 'note', personId: 'p', binId: 'b', binCode: 'B1', keptAt: '2026-11-25T10:00:00Z', problem: null },
  body: { id: `e${seq}`, happenedAt: '2026-11-25T10:00:00Z', note },
});

/** An outbox of so many entries in front of a server that a test writes. */
function stage(count: number, answer: (ids: readonly string[], nth: number) => Reply | null, note = '') {
  let kept = Array.from({ length: count }, (_, n) => entry(n + 1, note));
  const sent: string[][] = [];
  const told: News[] = [];
  const box: Box = {
    waiting: async () => kept.filter((one) => one.problem === null),
    drop: async (one) => {
      kept = kept.filter(({ seq }) => seq !== one.seq);
    },
    refuse: async (one, why) => {
      kept = kept.map((each) => (each.seq === one.seq ? { ...each, problem: why } : each));
    },
  };
  const outside: Outside = {
    box,
    tell: (news) => told.push(news),
    send: async (entries) => {
      if (sent.length > 200) throw new Error('sends for ever');
      sent.push(entries.map(({ id }) => id));
      return answer(sent.at(-1)!, sent.length);
    },
  };
  return { outside, sent, told, left: () => kept, refused: () => kept.filter((one) => one.problem !== null).map(({ id }) => id) };
}
const taken = (ids: readonly string[], status = 201): Reply => ({
  ...{ status: 200, retryAfterS: null },
  body: { items: ids.map((id) => ({ id, status })) },
});
const bare = (status: number, retryAfterS: number | null = null): Reply => ({ status, body: problem(status), retryAfterS });

describe('B14: what each answer means for what waits', () => {
  it.each([
    [200, 'empty', 0, 0],
    [400, 'empty', 1, 1],
    [401, 'sign-in', 1, 0],
    [403, 'sign-in', 1, 0],
    [409, 'empty', 1, 1],
    [413, 'empty', 1, 1],
    [422, 'empty', 1, 1],
    [426, 'update', 1, 0],
    [429, 'later', 1, 0],
    [500, 'later', 1, 0],
    [503, 'later', 1, 0],
    [507, 'later', 1, 0],
  ])('%i: stops because %s, %i left, %i of them need a person', async (status, why, left, needs) => {
    const s = stage(1, (ids) => (status === 200 ? taken(ids) : bare(status)));
    expect((await drain(s.outside)).why).toBe(why);
    expect([s.left().length, s.refused().length]).toEqual([left, needs]);
  });

  it.each([
    ['nobody', null],
    ['a captive portal, with a page of its own', { status: 200, body: null, retryAfterS: null }],
    ['JSON of somebody else', { status: 200, body: { ok: true }, retryAfterS: null }],
    ['an answer that names none of them', taken(['other'])],
  ])('B17: %s answering is no answer', async (_, reply) => {
    const s = stage(3, () => reply);
    expect((await drain(s.outside)).why).toBe('later');
    expect([s.sent.length, s.left().length, s.refused().length]).toEqual([1, 3, 0]);
  });

  it('waits as long as it is told to', async () => {
    const s = stage(1, () => bare(429, 40));
    expect(await drain(s.outside)).toEqual({ why: 'later', retryAfterS: 40, sentAny: false });
    expect(waitMs(1, 40, 0)).toBe(40_000);
  });
});

describe('B14: one bad entry', () => {
  it('goes to its person, and the others arrive in their order', async () => {
    const answer = (ids: readonly string[]): Reply => ({
      ...{ status: 200, retryAfterS: null },
      body: { items: ids.map((id) => (id === 'e2' ? { id, status: 422, problem: problem(422) } : { id, status: 201 })) },
    });
    const s = stage(120, answer);
    expect((await drain(s.outside)).why).toBe('empty');
    expect(s.sent.flat()).toEqual(Array.from({ length: 120 }, (_, n) => `e${n + 1}`));
    expect(s.sent.map((ids) => ids.length)).toEqual([50, 50, 20]);
    expect(s.refused()).toEqual(['e2']);
    expect(s.told.find((news) => news.kind === 'refused')).toEqual({ kind: 'refused', id: 'e2', problem: problem(422) });
  });

  it('that spoils its whole batch is found by sending one by one', async () => {
    const s = stage(4, (ids) => (ids.includes('e3') ? bare(400) : taken(ids)));
    expect((await drain(s.outside)).why).toBe('empty');
    expect([s.refused(), s.left().length]).toEqual([['e3'], 1]);
    expect(s.sent).toEqual([['e1', 'e2', 'e3', 'e4'], ['e1'], ['e2'], ['e3'], ['e4']]);
  });

  it('that the server could not judge this time stays and the rest goes', async () => {
    const s = stage(2, (ids) => ({
      status: 200,
      retryAfterS: null,
      body: { items: ids.map((id) => ({ id, status: id === 'e1' ? 503 : 201 })) },
    }));
    expect(await drain(s.outside)).toEqual({ why: 'later', retryAfterS: null, sentAny: true });
    expect(s.left().map(({ id }) => id)).toEqual(['e1']);
  });
});

it('B13: an answer that is lost after the server has it costs a second try and nothing else', async () => {
  const rows = new Set<string>();
  const s = stage(100, (ids, nth) => {
    const results = taken(ids, ids.some((id) => rows.has(id)) ? 200 : 201);
    for (const id of ids) rows.add(id);
    return nth % 2 ? null : results;
  });
  let tries = 0;
  while ((await drain(s.outside)).why !== 'empty') tries += 1;
  expect([rows.size, s.left().length, tries]).toEqual([100, 0, 2]);
});

it('keeps a batch well under what the server takes at once', async () => {
  const s = stage(50, (ids) => taken(ids), 'x'.repeat(10_000));
  await drain(s.outside);
  expect(Math.max(...s.sent.map((ids) => ids.length))).toBeLessThanOrEqual(15);
  expect(s.sent.flat().length).toBe(50);
});

it('B14: waits 2 s to 5 min, longer with each failure, never the same for all', () => {
  expect([waitMs(0, null, 0), waitMs(0, null, 1)]).toEqual([2000, 2000]);
  expect([waitMs(3, null, 0), waitMs(3, null, 1)]).toEqual([8000, 16_000]);
  expect([waitMs(500, null, 0), waitMs(500, null, 1)]).toEqual([150_000, 300_000]);
});
