import type { Problem } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import { drainPhotos, type PhotoReply } from './drain.ts';
import type { KeptPhoto } from './store.ts';

const problem = (status: number): Problem => ({ type: '', title: '', status, detail: '', code: 'photo-quota', requestId: 'r' });
const photo = (id: string, entryId: string): KeptPhoto => ({
  ...{ id, entryId, binId: 'b', personId: 'p', kind: 'bin', alt: '', takenAt: '2026-11-25T10:00:00Z', problem: null },
  picture: new Blob(['x']),
});
const bare = (status: number): PhotoReply => ({ status, problem: status < 300 ? null : problem(status) });

function stage(
  photos: readonly KeptPhoto[],
  answers: { here?: string[]; entry?: PhotoReply; send?: (id: string) => PhotoReply; now?: string },
) {
  let kept = [...photos];
  const sent: string[] = [];
  const refused: string[] = [];
  const outside = {
    box: {
      waiting: async () => kept,
      drop: async ({ id }: KeptPhoto) => {
        kept = kept.filter((one) => one.id !== id);
      },
      refuse: async ({ id }: KeptPhoto) => void refused.push(id),
    },
    isEntryHere: async (id: string) => (answers.here ?? []).includes(id),
    askEntry: async () => (answers.entry === undefined ? bare(200) : answers.entry),
    send: async ({ id }: KeptPhoto) => {
      sent.push(id);
      return (answers.send ?? (() => bare(201)))(id);
    },
    now: () => Date.parse(answers.now ?? '2026-11-25T11:00:00Z'),
  };
  return { outside, sent, refused, left: () => kept.map(({ id }) => id) };
}

describe('B22: a photo leaves the phone', () => {
  it('after its entry and never before, and the next one does not wait for it', async () => {
    const s = stage([photo('a', 'e1'), photo('b', 'e2')], { here: ['e1'] });
    expect(await drainPhotos(s.outside)).toBe('entries-first');
    expect([s.sent, s.left()]).toEqual([['b'], ['a']]);
  });

  it.each([
    ['the server does not know its entry yet', bare(404), '2026-11-25T11:00:00Z', 'entries-first', ['a']],
    ['its form was never saved and a week is over', bare(404), '2026-12-03T11:00:00Z', 'empty', []],
    ['nobody answers', null, '2026-11-25T11:00:00Z', 'later', ['a']],
    ['nobody is signed in', bare(401), '2026-11-25T11:00:00Z', 'sign-in', ['a']],
  ] as const)('or stays: %s', async (_, entry, now, stop, left) => {
    const s = stage([photo('a', 'e1')], { entry, now });
    expect([await drainPhotos(s.outside), s.left(), s.sent]).toEqual([stop, left, []]);
  });

  it.each([
    [200, 'empty', [], []],
    [201, 'empty', [], []],
    [400, 'empty', ['a', 'b'], ['a', 'b']],
    [401, 'sign-in', ['a', 'b'], []],
    [403, 'sign-in', ['a', 'b'], []],
    [409, 'empty', ['a', 'b'], ['a', 'b']],
    [413, 'empty', ['a', 'b'], ['a', 'b']],
    [422, 'empty', ['a', 'b'], ['a', 'b']],
    [426, 'sign-in', ['a', 'b'], []],
    [429, 'later', ['a', 'b'], []],
    [500, 'later', ['a', 'b'], []],
    [507, 'later', ['a', 'b'], []],
  ] as const)('B14: answered %i it ends as %s', async (status, stop, left, refused) => {
    const s = stage([photo('a', 'e1'), photo('b', 'e2')], { send: () => bare(status) });
    expect([await drainPhotos(s.outside), s.left(), s.refused]).toEqual([stop, left, refused]);
  });
});
