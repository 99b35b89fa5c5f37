import Fastify from 'fastify';
import { expect, test } from 'vitest';
import { cutSlowBodies } from '../../apps/api/src/plugins/slow.ts';
import { bodyHead, ordinaryMs, slowClient } from './slow-clients.ts';

const LONGEST_MS = 400;

test('F18: bodies that come a byte at a time are cut in time, a photo is given longer, and others are answered meanwhile', async () => {
  const app = Fastify();
  cutSlowBodies(app, LONGEST_MS);
  app.post('/json', async () => 'taken');
  app.addContentTypeParser('image/jpeg', (_request, payload, done) => done(null, payload));
  app.post('/photo', { config: { takes: 'image' } as never }, async ({ body }) => {
    for await (const _ of body as AsyncIterable<Buffer>);
    return 'taken';
  });
  app.get('/other', async () => 'here');
  const origin = await app.listen({ port: 0, host: '127.0.0.1' });
  const photo = slowClient({ origin, head: bodyHead('/photo', 'image/jpeg'), drip: 'x', everyMs: 50 });
  try {
    const slow = Array.from({ length: 200 }, () => slowClient({ origin, head: bodyHead('/json'), drip: ' ', everyMs: 50 }));
    let isPhotoCut = false;
    void photo.cut.then(() => {
      isPhotoCut = true;
    });
    const [others, lasted] = await Promise.all([ordinaryMs(`${origin}/other`, 10, 20), Promise.all(slow.map(({ cut }) => cut))]);
    expect(others.length).toBe(10);
    // Not before its time, or an honest phone on a bad line would be cut too.
    expect(Math.min(...lasted)).toBeGreaterThan(LONGEST_MS - 50);
    expect(isPhotoCut).toBe(false);
    const quick = await fetch(`${origin}/json`, { method: 'POST', body: '{}', headers: { 'content-type': 'application/json' } });
    expect(await quick.text()).toBe('taken');
  } finally {
    photo.stop();
    await app.close();
  }
});
