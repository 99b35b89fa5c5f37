import { expect, test } from 'vitest';
import { serve } from '../browser/harness.ts';
import { bodyHead, ordinaryMs, slowClient } from './slow-clients.ts';

const CUT_WITHIN_MS = 30_000;
const EACH = 100;

test('F18 at length: 200 clients at a byte a second are cut within 30 s by the real server, and others wait at most 500 ms', async () => {
  const server = await serve();
  try {
    const { origin } = server;
    const slow = (head: string, drip: string) => Array.from({ length: EACH }, () => slowClient({ origin, head, drip, everyMs: 1000 }));
    const bodies = slow(bodyHead('/api/entries/batch'), ' ');
    const heads = slow('GET /api/session HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Long: ', 'x');
    const others = await ordinaryMs(`${origin}/api/session`, 250, 100);
    const longest = async (clients: typeof bodies) => Math.max(...(await Promise.all(clients.map(({ cut }) => cut))));
    const [bodyMs, headMs] = [await longest(bodies), await longest(heads)];
    const p95Ms = others[Math.floor(others.length * 0.95)]!;
    console.log(`bodies cut by ${bodyMs.toFixed(0)} ms, heads by ${headMs.toFixed(0)} ms; others p95 ${p95Ms.toFixed(1)} ms`);
    expect(p95Ms).toBeLessThanOrEqual(500);
    expect(Math.max(bodyMs, headMs)).toBeLessThanOrEqual(CUT_WITHIN_MS);
  } finally {
    await server.stop('SIGKILL');
  }
});
