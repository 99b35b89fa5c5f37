import { expect, it } from 'vitest';
import type { Board } from '../bin/types.ts';
import { waitedFor } from './anew.ts';

const boardOf = (since: Record<string, string | null>) =>
  ({ bins: Object.entries(since).map(([code, anewSince]) => ({ code, anewSince })) }) as unknown as Board;

it('names the bins that are being worked out anew, and since when the longest', () => {
  const board = boardOf({ T2: '2026-11-25T10:00:02Z', F1: null, T1: '2026-11-25T10:00:03Z' });
  expect(waitedFor(board)).toEqual({ codes: ['T1', 'T2'], since: '2026-11-25T10:00:02Z' });
  expect(waitedFor(boardOf({ T2: null }))).toBeNull();
});
