import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Running, serve } from '../browser/harness.ts';
import { ask, enterDemo } from '../faults/feeders.ts';
import { Folders } from '../faults/stage.ts';

const folders = new Folders();
let server: Running;
let cookie: string;
let binId: string;
beforeAll(async () => {
  server = await serve({ dataDir: await folders.withDemo(), keepData: true });
  cookie = await enterDemo(server.origin);
  binId = JSON.parse((await ask(server.origin, 'GET', '/api/bins', { cookie })).text).items[0].id;
});
afterAll(async () => {
  await server.stop();
  folders.remove();
});

const inPage = /(?:href|src)="([^"]+\.js)"|import\("([^"]+\.js)"\)/g;
const inHeader = /<([^>]+\.js)>; rel="?modulepreload/g;

/** Every script that a page asks for by itself, in its HTML or in its Link header, with its size as sent by gzip. */
async function scriptsOf(path: string): Promise<Map<string, number>> {
  const answer = await fetch(server.origin + path, { headers: { cookie } });
  expect(answer.status).toBe(200);
  const found = [...(await answer.text()).matchAll(inPage), ...(answer.headers.get('link') ?? '').matchAll(inHeader)];
  const urls = found.map(([, linked, imported]) => new URL(linked ?? imported ?? '', server.origin + path).pathname);
  const sizes = new Map<string, number>();
  for (const url of new Set(urls)) sizes.set(url, gzipSync(await (await fetch(server.origin + url)).text()).length);
  return sizes;
}

const budgetBytes = 90_000;

test.each([
  ['logging at a bin', () => `/bins/${binId}/log`],
  ['the shifts', () => '/shifts'],
  ['the board', () => '/'],
])('B26: the first scripts of %s weigh at most 90 kB', async (_, path) => {
  const sizes = await scriptsOf(path());
  const sum = [...sizes.values()].reduce((all, size) => all + size, 0);
  expect(sizes.size).toBeGreaterThan(2);
  expect(sum).toBeGreaterThan(10_000);
  expect(sum).toBeLessThanOrEqual(budgetBytes);
});

test('B26: the list of shifts can be read with scripts switched off', async () => {
  const { items } = JSON.parse((await ask(server.origin, 'GET', '/api/shifts', { cookie })).text) as { items: { title: string }[] };
  const { text } = await ask(server.origin, 'GET', '/shifts', { cookie });
  const words = text.replace(/<script\b[\s\S]*?<\/script>/g, '');
  expect(items.length).toBeGreaterThan(0);
  expect(items.some(({ title }) => words.includes(title))).toBe(true);
});
