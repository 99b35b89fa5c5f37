import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import Fastify, { type FastifyInstance } from 'fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { mountWeb } from './mount.ts';

/** A page server as small as can be: it answers with what it was asked, and calls the API in process. */
const SERVER = `
export class Server {
  async init() {}
  async respond(request, { platform, getClientAddress }) {
    const url = new URL(request.url);
    if (url.pathname === '/through') {
      const answer = await platform.inject({ method: 'GET', url: '/api/hello' });
      return new Response(answer.body, { headers: { 'content-type': 'text/html' } });
    }
    const body = request.method === 'GET' || request.method === 'HEAD' ? '' : await request.text();
    const headers = new Headers({ 'content-type': 'application/json' });
    headers.append('set-cookie', 'a=1; Path=/');
    headers.append('set-cookie', 'b=2; Path=/');
    return new Response(JSON.stringify({ url: request.url, method: request.method, body, cookie: request.headers.get('cookie'), ip: getClientAddress() }), { status: 201, headers });
  }
}`;

const dir = mkdtempSync(path.join(tmpdir(), 'middenry-web-'));
let app: FastifyInstance;
const host = '127.0.0.1:4860';

beforeAll(async () => {
  mkdirSync(path.join(dir, 'client/_app/immutable'), { recursive: true });
  mkdirSync(path.join(dir, 'server'));
  writeFileSync(path.join(dir, 'client/_app/immutable/a.js'), 'export {}');
  writeFileSync(path.join(dir, 'client/service-worker.js'), 'keeps pages');
  writeFileSync(path.join(dir, 'client/worker-off.js'), 'takes them off');
  writeFileSync(path.join(dir, 'client/mark.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
  writeFileSync(path.join(dir, 'server/package.json'), '{"type":"module"}');
  writeFileSync(path.join(dir, 'server/index.js'), SERVER);
  writeFileSync(path.join(dir, 'server/manifest.js'), 'export const manifest = {};');
  app = Fastify();
  app.get('/api/hello', async () => 'from the api');
  app.setNotFoundHandler((_request, reply) => reply.code(404).send({ code: 'not-found' }));
  await mountWeb(app, { buildDir: dir });
});
afterAll(async () => {
  await app.close();
  rmSync(dir, { recursive: true });
});

describe('mountWeb()', () => {
  it('hands a page its request, with origin, body and cookies, and both cookies back', async () => {
    const answer = await app.inject({
      method: 'POST',
      url: '/x?y=1',
      headers: { host, cookie: 'sid=1', 'content-type': 'application/x-www-form-urlencoded' },
      payload: 'a=b',
    });
    expect(answer.statusCode).toBe(201);
    expect(answer.json()).toEqual({ url: 'http://127.0.0.1:4860/x?y=1', method: 'POST', body: 'a=b', cookie: 'sid=1', ip: '127.0.0.1' });
    expect(answer.headers['set-cookie']).toEqual(['a=1; Path=/', 'b=2; Path=/']);
  });

  it('lets a page call the API without a socket', async () => {
    expect((await app.inject({ url: '/through', headers: { host } })).body).toBe('from the api');
  });

  it('leaves unknown addresses of the API to the API', async () => {
    expect((await app.inject({ url: '/api/nothing', headers: { host } })).json()).toEqual({ code: 'not-found' });
  });

  it('refuses a stranger’s host and a form that is too long', async () => {
    expect((await app.inject({ url: '/', headers: { host: 'elsewhere.test' } })).statusCode).toBe(421);
    expect(
      (await app.inject({ method: 'POST', url: '/', headers: { host, 'content-type': 'text/plain' }, payload: 'x'.repeat(65 * 1024) }))
        .statusCode,
    ).toBe(413);
  });

  it('keeps files with a hash in their name for a year and asks again for the others', async () => {
    expect((await app.inject({ url: '/_app/immutable/a.js', headers: { host } })).headers['cache-control']).toBe(
      'public, max-age=31536000, immutable',
    );
    expect((await app.inject({ url: '/mark.svg', headers: { host } })).headers['cache-control']).toBe('no-cache');
  });

  it('H21: gives phones the worker that keeps pages, or where they may not the one that takes them off', async () => {
    const bodies = [];
    for (const offline of [true, false]) {
      const one = Fastify();
      await mountWeb(one, { buildDir: dir, offline });
      const { body, headers } = await one.inject({ url: '/service-worker.js', headers: { host } });
      bodies.push([body, headers['cache-control'], String(headers['content-type']).split(';')[0]]);
      await one.close();
    }
    const type = expect.stringMatching(/javascript$/);
    expect(bodies).toEqual([
      ['keeps pages', 'no-cache', type],
      ['takes them off', 'no-cache', type],
    ]);
  });

  it('says plainly when the pages were not built', async () => {
    await expect(mountWeb(Fastify(), { buildDir: path.join(dir, 'nowhere') })).rejects.toThrow(
      'Cannot serve the pages as they were not built',
    );
  });
});
