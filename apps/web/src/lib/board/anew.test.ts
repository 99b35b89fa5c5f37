import { expect, it } from 'vitest';
import type { Board } from '../bin/types.ts';
import { notKnown, waitedFor } from './anew.ts';

const boardOf = (since: Record<string, string | null>) =>
  ({ bins: Object.entries(since).map(([code, anewSince]) => ({ code, anewSince })) }) as unknown as Board;

it('names the bins that are being worked out anew, and since when the longest', () => {
  const board = boardOf({ T2: '2026-11-25T10:00:02Z', F1: null, T1: '2026-11-25T10:00:03Z' });
  expect(waitedFor(board)).toEqual({ codes: ['T1', 'T2'], since: '2026-11-25T10:00:02Z' });
  expect(waitedFor(boardOf({ T2: null }))).toBeNull();
});

it('names two dozen bins of which nothing is known yet, and counts the rest', () => {
  const boardWith = (n: number) => ({ waiting: Array.from({ length: n }, (_, at) => ({ code: `T${at}` })) }) as unknown as Board;
  expect(notKnown(boardWith(0))).toBeNull();
  expect(notKnown(boardWith(2))).toEqual({ codes: ['T0', 'T1'], more: 0 });
  expect(notKnown(boardWith(10_000))).toMatchObject({ more: 9976 });
});
