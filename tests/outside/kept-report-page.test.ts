import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Running, serve } from '../browser/harness.ts';
import { freshId } from '../cast.ts';
import { ask, enterDemo } from '../faults/feeders.ts';
import { Folders } from '../faults/stage.ts';

const folders = new Folders();
let dir: string;
let server: Running;
let cookie: string;
beforeAll(async () => {
  dir = await folders.withDemo();
  server = await serve({ dataDir: dir, keepData: true });
  cookie = await enterDemo(server.origin);
}, 240_000);
afterAll(async () => {
  await server?.stop();
  folders.remove();
});

const NUMBER = /^-?\d/;
const isFigure = (value: unknown) => NUMBER.test(JSON.stringify(value));
/** As if nothing of a kind had been counted yet. */
const lacking = (value: unknown, wanted: (key: string) => boolean): unknown => {
  if (Array.isArray(value)) return value.map((row) => lacking(row, wanted));
  if (value === null || typeof value !== 'object') return value;
  const left = Object.entries(value).filter(([key, part]) => !(isFigure(part) && wanted(key)));
  return Object.fromEntries(left.map(([key, part]) => [key, key === 'climate' ? part : lacking(part, wanted)]));
};

test.each([
  ['no figure at all', (key: string) => key !== 'young'],
  ['none of the grams', (key: string) => key.endsWith('G')],
  ['nothing but grams', (key: string) => !key.endsWith('G') && key !== 'young'],
])('D14: the page of a report that was published with %s says what was not counted then', async (_, wanted) => {
  const span = { from: '2026-01-01', to: '2026-11-20' };
  const season = JSON.parse((await ask(server.origin, 'GET', `/api/season?from=${span.from}&to=${span.to}`, { cookie })).text);
  expect(season.total.fedWeighedG).toBeGreaterThan(0);
  const id = freshId();
  const sqlite = new Database(join(dir, 'demo.db'));
  sqlite
    .prepare(
      'INSERT INTO published_season (id, site_id, name, from_date, to_date, body, texts, published_at) VALUES (?, NULL, ?, ?, ?, ?, ?, ?)',
    )
    .run(id, 'Older', span.from, span.to, JSON.stringify(lacking(season, wanted)), '{}', '2026-11-21T10:00:00.000Z');
  sqlite.close();
  const said = async (language: string) => {
    const answer = await fetch(`${server.origin}/season/published/${id}`, { headers: { cookie, 'accept-language': language } });
    expect(answer.status).toBe(200);
    const words = (await answer.text()).replace(/<script\b[\s\S]*?<\/script>/g, '');
    expect(words).not.toMatch(/NaN|undefined/);
    return words;
  };
  expect(await said('en')).toContain('not counted then');
  expect(await said('es')).toContain('entonces no se contaba');
});
