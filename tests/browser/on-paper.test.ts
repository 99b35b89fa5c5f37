/** What is printed (criteria B20, D13): labels, cards and the board as they come on paper; and the way in from a label (B21). */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { QUIET_MODULES } from '../../apps/web/src/lib/labels/label-qr.ts';
import { LABEL_MM } from '../outside/muddy-label.ts';
import { openBrowser, type Running, serve, sidewaysPx, visit, type Walk } from './harness.ts';
import { chromaOf, readPicture } from './pixels.ts';
import { asPrinted, inkOf, PAPERS, sheetsOf } from './printed.ts';

const PX_PER_MM = 96 / 25.4;
let server: Running;
let browser: Browser;
let walk: Walk;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  walk = await visit(browser, server.origin);
  await walk.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});
const allBins = async () =>
  (await (await walk.context.request.get('/api/bins')).json()).items as { id: string; code: string; name: string }[];

/** Sizes of everything on the first label, in millimetres of the paper. */
const measured = (page: Page) =>
  page.evaluate((pxPerMm) => {
    const mm = (px: number) => px / pxPerMm;
    const qr = document.querySelector('.bin-label-qr') as SVGSVGElement;
    const dark = qr.querySelector('path')!.getBoundingClientRect();
    const box = qr.getBoundingClientRect();
    const modules = qr.viewBox.baseVal.width;
    const boxMm = (selector: string) => {
      const { width, height } = document.querySelector(selector)!.getBoundingClientRect();
      return { width: Math.round(mm(width)), height: Math.round(mm(height)) };
    };
    const code = document.querySelector('.bin-label-code')!;
    const pen = document.createElement('canvas').getContext('2d')!;
    const { fontWeight, fontSize, fontFamily } = getComputedStyle(code);
    pen.font = `${fontWeight} ${fontSize} ${fontFamily}`;
    const letters = [...code.textContent!].map((c) => pen.measureText(c).actualBoundingBoxAscent);
    return {
      codeMm: mm(dark.width),
      moduleMm: mm(box.width) / modules,
      quietMm: Math.min(...[dark.left - box.left, dark.top - box.top, box.right - dark.right, box.bottom - dark.bottom].map(mm)),
      lettersMm: mm(Math.min(...letters)),
      overPx: code.scrollWidth - code.clientWidth,
      label: boxMm('.bin-label'),
      labels: document.querySelectorAll('.bin-label').length,
    };
  }, PX_PER_MM);

describe('B20: the sheet of labels, as Chromium prints it', () => {
  test.each([
    ['a4', 595, 842],
    ['letter', 612, 792],
  ])('%s: four on a page, codes of 45 mm, modules of 1.2 mm, letters of 15 mm', async (paper, widthPt, heightPt) => {
    await walk.page.goto(`/bins/labels?paper=${paper}`, { waitUntil: 'load' });
    await walk.page.emulateMedia({ media: 'print' });
    const seen = await measured(walk.page);
    expect(seen.codeMm).toBeGreaterThanOrEqual(45);
    expect(seen.moduleMm).toBeGreaterThanOrEqual(1.2);
    expect(seen.quietMm).toBeGreaterThanOrEqual(QUIET_MODULES * seen.moduleMm - 0.05);
    expect(seen.lettersMm).toBeGreaterThanOrEqual(15);
    expect(seen.overPx).toBeLessThanOrEqual(0);
    expect(seen.label).toEqual({ width: LABEL_MM.width, height: LABEL_MM.height });
    expect(seen.labels).toBe((await allBins()).length);
    const pdf = (await walk.page.pdf({ preferCSSPageSize: true })).toString('latin1');
    const boxes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map((m) => [
      Math.round(Number(m[1])),
      Math.round(Number(m[2])),
    ]);
    expect(boxes).toEqual(Array.from({ length: Math.ceil(seen.labels / 4) }, () => [widthPt, heightPt]));
    await walk.page.emulateMedia({ media: null });
  });

  test('an address that only this machine can open is called out', async () => {
    await walk.page.goto('/bins/labels', { waitUntil: 'load' });
    expect(await walk.page.locator('p.care').textContent()).toContain('No phone can open');
  });
});

const places: Record<string, string> = {};
const read = async (path: string) => (await walk.context.request.get(path)).json();
beforeAll(async () => {
  places.bin = (await read('/api/board')).bins.find((one: { band: string }) => one.band === 'act').id;
  const shifts = (await read('/api/shifts')).items as { id: string; signUps: unknown[]; duties: unknown[] }[];
  places.site = (await read('/api/sites')).items[0].id;
  places.shift = shifts.find(({ signUps, duties }) => signUps.length > 0 && duties.length > 0)!.id;
});

describe('D13: on paper', () => {
  /** Whole names of people, which no sheet may show that hangs where anybody passes. */
  const wholeNames = async () =>
    ((await read('/api/people')).items as { name: string }[]).map(({ name }) => name).filter((name) => !/\s\S\.$/.test(name));

  test.each([
    ['/', 4],
    ['/bins/:bin/card', 1],
    ['/shifts/:shift', 1],
  ])(
    '%s takes %i sheets at most, in ink that grey printers hold, with nothing cut, no way to press and nobody by their whole name',
    async (path, most) => {
      await walk.page.goto(
        path.replace(/:(\w+)/, (_, name: string) => places[name]!),
        { waitUntil: 'load' },
      );
      for (const paper of PAPERS) expect(await sheetsOf(walk.page, paper), paper).toBeLessThanOrEqual(most);
      await asPrinted(walk.page, async () => {
        const ink = await inkOf(walk.page);
        const said = ink.map(({ text }) => text).join(' ');
        expect(said).toContain('Printed ');
        expect(ink.filter((one) => one.contrast < 4.5)).toEqual([]);
        expect(ink.filter((one) => one.cutPx > 0)).toEqual([]);
        expect(await sidewaysPx(walk.page)).toBe(0);
        expect(await walk.page.locator('nav:visible, button:visible, input:visible, select:visible').count()).toBe(0);
        const names = await wholeNames();
        expect(names.length).toBeGreaterThan(3);
        expect(names.filter((name) => said.includes(name))).toEqual([]);
        const picture = await readPicture(await walk.page.screenshot({ fullPage: true }));
        let chroma = 0;
        for (let y = 0; y < picture.height; y += 2)
          for (let x = 0; x < picture.width; x += 2) chroma = Math.max(chroma, chromaOf(picture.at(x, y)));
        expect(chroma).toBeLessThanOrEqual(0.04);
      });
    },
  );

  test('a card has rows to write in', async () => {
    await walk.page.goto(`/bins/${places.bin}/card`, { waitUntil: 'load' });
    const rows = walk.page.getByRole('table', { name: 'Write here' }).locator('tbody tr');
    expect(await rows.count()).toBeGreaterThanOrEqual(6);
    expect((await rows.last().boundingBox())!.height).toBeGreaterThanOrEqual(32);
  });
});

test.each(['/bins/:bin', '/bins/:bin/what-if', '/sites/:site'])(
  'D13: %s on paper: ink that grey printers hold, nothing cut or drawn over, nothing to press',
  async (path) => {
    await walk.page.goto(
      path.replace(/:(\w+)/, (_, name: string) => places[name]!),
      { waitUntil: 'load' },
    );
    const canvas = walk.page.locator('.canvas-box canvas');
    if (path === '/bins/:bin') await canvas.and(walk.page.locator('[style*="width"]')).waitFor();
    await asPrinted(walk.page, async () => {
      const ink = await inkOf(walk.page);
      expect(ink.length).toBeGreaterThan(20);
      expect(ink.filter((one) => one.contrast < 4.5 || one.cutPx > 0)).toEqual([]);
      expect(await walk.page.locator('button:visible, [type="range"]:visible').count()).toBe(0);
      for (const drawn of await canvas.all()) {
        const [box, held] = [await drawn.locator('..').boundingBox(), await drawn.boundingBox()];
        expect(held!.height).toBeGreaterThan(100);
        expect(held!.height).toBeLessThanOrEqual(box!.height + 1);
      }
    });
  },
);

describe('B21: whoever scans a label', () => {
  test('and has not signed in sees its code, its name and the ways in, and comes to the log after them', async () => {
    const [bin] = await allBins();
    const stranger = await visit(browser, server.origin, { viewport: { width: 360, height: 640 } });
    await stranger.page.goto(`/b/${bin!.code.toLowerCase()}`, { waitUntil: 'load' });
    const text = await stranger.page.locator('body').textContent();
    expect(text).toContain(`Bin ${bin!.code}, ${bin!.name}`);
    const people = (await (await walk.context.request.get('/api/people')).json()).items as { name: string }[];
    expect(people.length).toBeGreaterThan(3);
    const html = await stranger.page.content();
    for (const secret of [bin!.id, ...people.map((p) => p.name)]) expect(html).not.toContain(secret);
    await stranger.page.getByRole('link', { name: 'Other ways to sign in' }).click();
    await stranger.page.getByRole('button', { name: /volunteer/i }).click();
    await stranger.page.waitForURL(`**/bins/${bin!.id}/log`);
    await stranger.page.goto(`/b/${bin!.code}`, { waitUntil: 'load' });
    expect(new URL(stranger.page.url()).pathname).toBe(`/bins/${bin!.id}/log`);
    expect(stranger.strangers).toEqual([]);
    expect(stranger.complaints).toEqual([]);
    await stranger.close();
  });

  test('and finds no such bin is told so in plain words', async () => {
    const stranger = await visit(browser, server.origin);
    const answer = await stranger.page.goto('/b/ZZ9', { waitUntil: 'load' });
    expect([answer!.status(), await stranger.page.locator('h1').textContent()]).toEqual([404, 'No bin has this code.']);
    await stranger.close();
    await walk.page.goto('/b/ZZ9', { waitUntil: 'load' });
    expect(await walk.page.getByRole('alert').textContent()).toContain('No bin is called "ZZ9".');
  });
});

test('B19: typing the code does the same as the label, with a small letter and a gap too', async () => {
  const [bin] = await allBins();
  await walk.page.goto('/log', { waitUntil: 'load' });
  await walk.page.getByLabel('Its code, as on the label').fill(` ${bin!.code.toLowerCase()[0]} ${bin!.code.slice(1)}`);
  await walk.page.getByRole('button', { name: 'Go to this bin' }).click();
  await walk.page.waitForURL(`**/bins/${bin!.id}/log`);
  expect(walk.complaints).toEqual([]);
});
