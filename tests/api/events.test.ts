import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { BINS, type Cast, freshId, openCast, PEOPLE } from '../cast.ts';

let cast: Cast;
let origin: string;
beforeEach(async () => {
  cast = await openCast();
  await cast.app.listen({ port: 0, host: '127.0.0.1' });
  origin = `http://127.0.0.1:${(cast.app.server.address() as AddressInfo).port}`;
});
afterEach(() => cast.close());

const LONGEST_MS = 5000;

/** A stream being read; `until` gives all of it once it holds the text. */
async function listen(headers: Record<string, string>) {
  const answer = await fetch(`${origin}/api/events`, { headers, signal: AbortSignal.timeout(LONGEST_MS) });
  const reader = answer.body!.getReader();
  let text = '';
  let ended = false;
  const more = async () => {
    const { done, value } = await reader.read();
    ended = done;
    text += value === undefined ? '' : new TextDecoder().decode(value);
  };
  return {
    answer,
    async until(wanted: string) {
      while (!text.includes(wanted) && !ended) await more();
      return text;
    },
    async end() {
      while (!ended) await more();
      return text;
    },
    close: () => reader.cancel(),
  };
}

const check = (id: string) => ({ id, binId: BINS.tote, happenedAt: '2026-11-25T09:00:00Z', squeeze: 'damp' });
const lastIdIn = (text: string): string => [...text.matchAll(/^id: (\d+)$/gm)].at(-1)![1]!;

describe('GET /api/events', () => {
  it('tells open pages of a change as it is committed', async () => {
    const stream = await listen({ cookie: cast.cookie('volunteer') });
    expect(stream.answer.headers.get('content-type')).toBe('text/event-stream; charset=utf-8');
    expect(stream.answer.headers.get('x-content-type-options')).toBe('nosniff');
    await stream.until('event: here');
    expect((await cast.call('volunteer', 'POST', '/api/checks', check(freshId()))).status).toBe(201);
    const text = await stream.until('"entry"');
    expect(text).toContain(`event: change\ndata: {"topic":"entry","subject":"${BINS.tote}"}`);
    await stream.close();
  });

  it('says nothing of what was refused', async () => {
    const before = await cast.call('volunteer', 'GET', '/api/events?once=true');
    await cast.call('volunteer', 'POST', '/api/checks', { ...check(freshId()), binId: freshId() });
    const after = await cast.call('volunteer', 'GET', '/api/events?once=true', undefined, { 'last-event-id': lastIdIn(before.text) });
    expect(lastIdIn(after.text)).toBe(lastIdIn(before.text));
  });

  it('loses nothing between two connections, and says each change once', async () => {
    const first = await listen({ cookie: cast.cookie('volunteer') });
    const id = lastIdIn(await first.until('event: here'));
    await first.close();
    for (let at = 0; at < 20; at += 1) await cast.call('volunteer', 'POST', '/api/checks', check(freshId()));
    const second = await listen({ cookie: cast.cookie('volunteer'), 'last-event-id': id });
    const text = await second.until(`id: ${Number(id) + 20}\n`);
    expect([...text.matchAll(/^id: (\d+)$/gm)].map((match) => Number(match[1]))).toEqual(
      Array.from({ length: 20 }, (_, at) => Number(id) + 1 + at),
    );
    await second.close();
  });

  it('tells whoever was away too long, or comes from another store, to read everything anew', async () => {
    for (let at = 0; at < 501; at += 1) cast.store.sqlite.prepare("INSERT INTO change (topic, subject) VALUES ('stuff', 'x')").run();
    const long = await cast.call('volunteer', 'GET', '/api/events?once=true', undefined, { 'last-event-id': '1' });
    const future = await cast.call('volunteer', 'GET', '/api/events?once=true', undefined, { 'last-event-id': '999999' });
    expect([long.text.includes('event: reset'), future.text.includes('event: reset')]).toEqual([true, true]);
  });

  it('E7: ends for somebody who has just been disabled', async () => {
    const stream = await listen({ cookie: cast.cookie('volunteer') });
    await stream.until('event: here');
    const disabled = await cast.call('owner', 'PATCH', `/api/people/${PEOPLE.volunteer.id}`, { disabled: true });
    expect(disabled.status).toBe(200);
    await stream.end();
    expect(cast.app.events.listeners).toBe(0);
  });

  it('ends when the server stops', async () => {
    const stream = await listen({ cookie: cast.cookie('volunteer') });
    await stream.until('event: here');
    cast.app.events.close();
    expect(await stream.end()).toContain('event: here');
  });
});
