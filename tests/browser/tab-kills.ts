import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { type FaultyWay, faultyWayTo } from './faulty-way.ts';
import { serve } from './harness.ts';
import { KeptPhone } from './kept-phone.ts';
import { atServer, onPhone } from './phone.ts';

export interface Kills {
  /** Notes whose page had said "Saved on this phone" when it was killed. */
  readonly said: number;
  /** Tapped and killed before the page could say so; they may be there or not, but never twice. */
  readonly unsaid: number;
  readonly unsaidThere: number;
  /** Cold starts with no network among them. */
  readonly cold: number;
  /** Everything that was lost or doubled, in words. */
  readonly faults: string[];
}
const DELAY_MOST_MS = 200;
/** Chromium writes cookies every half minute. */
const COOKIES_ON_DISK_MS = 35_000;
const NOTE = 'kill ';

declare global {
  function heard(what: 'tap' | 'saved'): Promise<void>;
}

/** Kills so long after the tap as the page itself felt it, and knows what the page had said by then. */
async function dieAfterTap(page: Page, kill: () => void): Promise<() => { readonly isTapped: boolean; readonly isSaid: boolean }> {
  const known = { isTapped: false, isSaid: false };
  await page.exposeFunction('heard', (what: 'tap' | 'saved') => {
    if (what === 'saved') known.isSaid = true;
    // Half of them within the first 50 ms, while the note is on its way to the disk.
    else if (!known.isTapped) setTimeout(kill, Math.random() ** 2 * DELAY_MOST_MS);
    known.isTapped = true;
  });
  await page.evaluate(() => {
    addEventListener('submit', () => void heard('tap'), { capture: true });
    const look = () => {
      if (document.querySelector('.after-save')?.textContent?.includes('Saved on this phone')) void heard('saved');
    };
    new MutationObserver(look).observe(document, { subtree: true, childList: true, characterData: true });
  });
  return () => known;
}

async function noteAndKill(phone: KeptPhone, { note, path }: { note: string; path: string }, round: number): Promise<boolean> {
  const page = await phone.tab();
  await page.goto(path);
  await page.locator('#svelte-announcer').waitFor({ state: 'attached' });
  await page.locator('textarea[name="note"]').fill(note);
  // Every third time the whole browser, else the tab's process.
  const known = await dieAfterTap(page, await phone.killer(round % 3 === 0 ? 'browser' : 'renderer'));
  const dead = phone.dead();
  await Promise.race([page.locator('form.sheet .save button').click({ timeout: 5000 }), dead]).catch(() => undefined);
  await dead;
  if (!known().isTapped) throw new Error('the tap was never felt');
  return known().isSaid;
}

async function firstVisit(phone: KeptPhone, way: FaultyWay): Promise<string> {
  const page = await phone.tab();
  const { request } = page.context();
  await request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: way.origin } });
  const { items } = await (await request.get('/api/bins')).json();
  await page.goto('/waiting');
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 60_000 });
  await page.getByText('What this phone carries is from').waitFor({ timeout: 120_000 });
  // A browser that is killed before it has written its cookies down is signed out, and then the pocket goes, as it should.
  await sleep(COOKIES_ON_DISK_MS);
  return items[0].id;
}

/** B11: a tab is killed 0 to 200 ms after the tap on Save, again and again, on one phone that sends nothing until all is over. */
export async function killTabs(rounds: number): Promise<Kills> {
  const server = await serve();
  const way = await faultyWayTo(server.origin);
  const phone = new KeptPhone(way.origin);
  const [said, unsaid] = [new Set<string>(), new Set<string>()];
  const faults: string[] = [];
  let cold = 0;
  try {
    const binId = await firstVisit(phone, way);
    for (let round = 0; round < rounds; round += 1) {
      const note = NOTE + String(round).padStart(3, '0');
      way.way = round % 2 === 0 ? 'no-batches' : 'away';
      cold += round % 2;
      if (round % 20 === 0) console.log(`${round} kills: ${said.size} said to be saved, ${unsaid.size} not`);
      const heard = noteAndKill(phone, { note, path: `/bins/${binId}/log?kind=note` }, round);
      const isSaid = await heard.catch((error: Error) => void faults.push(`${note} with the network ${way.way}: ${error.message}`));
      if (isSaid !== undefined) (isSaid ? said : unsaid).add(note);
    }
    way.way = 'through';
    const page = await phone.tab();
    await page.goto('/waiting');
    await expect.poll(() => onPhone(page), { timeout: 120_000, interval: 500 }).toEqual([]);
    const there = await atServer(page.context(), binId, NOTE);
    for (const note of said) if (!there.includes(note)) faults.push(`${note}: said to be saved, and lost`);
    for (const note of new Set(there)) if (there.indexOf(note) !== there.lastIndexOf(note)) faults.push(`${note}: there twice`);
    const unsaidThere = [...unsaid].filter((note) => there.includes(note)).length;
    return { said: said.size, unsaid: unsaid.size, unsaidThere, cold, faults };
  } finally {
    await phone.throwAway();
    await way.close();
    await server.stop();
  }
}
