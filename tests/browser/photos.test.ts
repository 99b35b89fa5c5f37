/** A photo at the bin: small, upright and bare before it waits, sent after its note, shown with words (criteria B22, E13). */
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { flag, heldFlag } from '../api/photo-files.ts';
import { axeFaults, openBrowser, type Running, serve, sidewaysPx, visit, type Walk } from './harness.ts';
import { targetsOf, tooNear, tooSmall } from './measure.ts';
import { expectSmallAndBare, heic, isUpright, photoFolder, refusedTwin, toldFlag, waitingOn } from './photo-phone.ts';

let server: Running;
let browser: Browser;
let walk: Walk;
let binId: string;
let code: string;
/** Press the shutter, and keep the picture. */
const CAMERA_TAPS = 2;
/** Sent, taken in and dropped, on a machine with much else to do. */
const SOON = { timeout: 10_000 };
const folder = photoFolder();
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
});
beforeEach(async () => {
  walk = await visit(browser, server.origin, { viewport: { width: 360, height: 740 } });
  await walk.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: server.origin } });
  ({ id: binId, code } = (await (await walk.context.request.get('/api/bins')).json()).items[0]);
});
afterEach(() => walk.close());
afterAll(async () => {
  await browser?.close();
  await server?.stop();
  folder.remove();
});

describe('B22: photos as cameras make them', () => {
  it('each is small, upright and bare before it waits; what cannot be opened is told in plain words', async () => {
    const { page } = walk;
    await page.goto(`/bins/${binId}/log?kind=check`);
    for (const [name, bytes] of [
      ['held-6.jpg', await heldFlag(6)],
      ['told.jpg', await toldFlag()],
    ] as const) {
      const before = (await waitingOn(page))[0]?.id;
      await folder.choose(page, name, bytes);
      expect([name, await isUpright(await expectSmallAndBare(page, name, before))]).toEqual([name, true]);
    }
    await folder.choose(page, 'apart.heic', heic);
    await page.getByRole('alert').getByText('a form called HEIC').waitFor();
    expect(await waitingOn(page)).toHaveLength(1);
    await folder.choose(page, 'no.jpg', Buffer.from('no photo at all'));
    await page.getByRole('alert').getByText('cannot be opened').waitFor();
    await page.getByRole('button', { name: 'Leave it out' }).click();
    await expect.poll(async () => (await waitingOn(page)).length, SOON).toBe(0);
  });
});

describe('B22: a photo and its note', () => {
  it('waits while its note is not saved, goes after it, and stands on the page of the bin with its words', async () => {
    const { page, context } = walk;
    const sent: string[] = [];
    page.on('request', (request) => {
      if (request.method() === 'PUT' && request.url().includes('/api/photos/')) sent.push(request.url());
    });
    await page.goto(`/bins/${binId}/log?kind=note`);
    await folder.choose(page, 'mites.jpg', await flag(900, 600).jpeg().toBuffer());
    await page.getByText('The photo goes with this note.').waitFor();
    await page.getByRole('radio', { name: 'A visitor' }).check();
    await page.getByLabel('In words, for who cannot see it').fill('Mites under the lid');
    await page.getByLabel('In words, for who cannot see it').blur();
    await expect
      .poll(async () => (await waitingOn(page)).map(({ alt, kind }) => [alt, kind]))
      .toEqual([['Mites under the lid', 'visitor']]);
    const targets = await targetsOf(page);
    expect([...tooSmall(targets, 56), ...tooNear(targets, 8)]).toEqual([]);
    expect([await axeFaults(page), await sidewaysPx(page)]).toEqual([[], 0]);
    expect(sent).toEqual([]);
    await page.locator('textarea').first().fill('Mites again');
    await page.locator('.save button').click();
    await page.locator('.after-save[data-at="server"]').waitFor();
    await expect.poll(() => sent.length, SOON).toBe(1);
    await expect.poll(async () => (await waitingOn(page)).length, SOON).toBe(0);
    const list = (await (await context.request.get(`/api/bins/${binId}/photos`)).json()).items;
    expect(list).toHaveLength(1);
    expect(list[0]).toMatchObject({ kind: 'visitor', alt: 'Mites under the lid', mine: true });
    const log = (await (await context.request.get(`/api/bins/${binId}/entries`)).json()).items;
    expect(log.find(({ id }: { id: string }) => id === list[0].entryId).note).toBe('Mites again');
    await page.goto(`/bins/${binId}`);
    const shown = page.getByRole('img', { name: 'Mites under the lid' });
    await shown.scrollIntoViewIfNeeded();
    await expect.poll(() => shown.evaluate((image: HTMLImageElement) => image.complete && image.naturalWidth)).toBe(900);
    await page.getByText(`Visitor in ${code}`).waitFor();
    await page.getByRole('button', { name: /^Take this photo off/ }).click();
    await page.getByText('No photo yet.').waitFor();
    expect(walk.strangers).toEqual([]);
  });

  it('B.2: a problem is noted with a photo in seven taps, of which two are the camera’s own', async () => {
    const { page, context } = walk;
    await page.goto(`/bins/${binId}/log`);
    let taps = 0;
    const tap = async (what: string) => {
      taps += 1;
      await page.locator(what).first().click();
    };
    await tap('nav.kinds a[href*="check"]');
    await tap('details:has(input[name="visitor"]) > summary');
    await tap('label.choice:has(input[value="mites"])');
    const opened = page.waitForEvent('filechooser');
    await tap('.photo-add label');
    taps += CAMERA_TAPS;
    await (await opened).setFiles({ name: 'mites.jpg', mimeType: 'image/jpeg', buffer: await flag(300, 200).jpeg().toBuffer() });
    await page.getByText('The photo goes with this note.').waitFor();
    expect(await page.getByRole('radio', { name: 'A visitor' }).isChecked()).toBe(true);
    await tap('.save button');
    await page.locator('.after-save[data-at="server"]').waitFor();
    expect(taps).toBeLessThanOrEqual(7);
    await expect.poll(async () => (await waitingOn(page)).length, SOON).toBe(0);
    const [check] = (await (await context.request.get(`/api/bins/${binId}/entries?limit=1`)).json()).items;
    expect(check).toMatchObject({ kind: 'check', visitors: ['mites'] });
    const photos = (await (await context.request.get(`/api/bins/${binId}/photos`)).json()).items;
    expect(photos[0]).toMatchObject({ entryId: check.id, kind: 'visitor' });
  });

  it('H2: a note is saved and sent though its photo is refused, and never sent twice', async () => {
    const { page, context } = walk;
    await context.route('**/api/photos/*', (route) =>
      route.fulfill({ status: 503, contentType: 'application/problem+json', body: '{"code":"unavailable","status":503}' }),
    );
    await page.goto(`/bins/${binId}/log?kind=note`);
    await folder.choose(page, 'late.jpg', await flag(300, 200).jpeg().toBuffer());
    await page.getByText('The photo goes with this note.').waitFor();
    await page.locator('textarea').first().fill('Photo comes late');
    await page.locator('.save button').click();
    await page.locator('.after-save[data-at="server"]').waitFor();
    const log = (await (await context.request.get(`/api/bins/${binId}/entries`)).json()).items;
    expect(log[0].note).toBe('Photo comes late');
    expect(await waitingOn(page)).toHaveLength(1);
    await context.unroute('**/api/photos/*');
    // The next page, whichever it is, carries on.
    await page.goto('/more');
    await expect.poll(async () => (await waitingOn(page)).length, SOON).toBe(0);
    const list = (await (await context.request.get(`/api/bins/${binId}/photos`)).json()).items;
    expect(list.filter(({ entryId }: { entryId: string }) => entryId === log[0].id)).toHaveLength(1);
  });

  it('B14: one that is refused for good stands where it can be found, with why, and is sent again or thrown away; its note is sent', async () => {
    const { page, context } = walk;
    await context.route('**/api/photos/*', (route) =>
      route.fulfill({ status: 413, contentType: 'application/problem+json', body: '{"code":"too-large","status":413}' }),
    );
    await page.goto(`/bins/${binId}/log?kind=note`);
    await folder.choose(page, 'big.jpg', await flag(300, 200).jpeg().toBuffer());
    await page.getByText('The photo goes with this note.').waitFor();
    await page.locator('textarea').first().fill('Photo is refused');
    await page.locator('.save button').click();
    await page.locator('.after-save[data-at="server"]').waitFor();
    await page.getByRole('status').getByText('1 photo could not be sent.').waitFor();
    const [note] = (await (await context.request.get(`/api/bins/${binId}/entries?limit=1`)).json()).items;
    expect(note).toMatchObject({ note: 'Photo is refused', undoneAt: null });
    await refusedTwin(page, 'photo-quota');
    await page.goto('/waiting');
    await page.getByRole('heading', { level: 1, name: '2 photos could not be sent.' }).waitFor();
    const [tooBig, tooMany] = [page.locator('.kept-photo').first(), page.locator('.kept-photo').last()];
    await tooBig.getByText(`Photo of ${code}, today`).waitFor();
    await tooBig.getByText('This photo is too big for the server.').waitFor();
    await tooMany.getByText('You have as many photos here as one person may.').waitFor();
    const targets = await targetsOf(page);
    expect([await axeFaults(page), await sidewaysPx(page), tooSmall(targets, 44)]).toEqual([[], 0, []]);
    await tooMany.getByRole('button', { name: 'Throw away' }).click();
    await tooMany.getByRole('button', { name: 'Yes, throw it away' }).click();
    await page.getByRole('heading', { level: 1, name: '1 photo could not be sent.' }).waitFor();
    await context.unroute('**/api/photos/*');
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.getByRole('heading', { level: 1, name: 'Nothing waits.' }).waitFor();
    expect(await waitingOn(page)).toEqual([]);
    const list = (await (await context.request.get(`/api/bins/${binId}/photos`)).json()).items;
    expect(list.filter(({ entryId }: { entryId: string }) => entryId === note.id)).toHaveLength(1);
  });
});
