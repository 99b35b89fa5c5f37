/** The log form under the sun, in a wet hand, on a small phone: sizes, letters, contrast, what stays in view. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { sidewaysPx } from './harness.ts';
import { targetsOf, tooNear, tooSmall } from './measure.ts';

const BIN_SIDE_PX = 56;
const GAP_PX = 8;

/** What can be seen at once, without scrolling. */
const saveIsInView = (page: Page) =>
  page.locator('.save button').evaluate((button) => {
    const box = button.getBoundingClientRect();
    const bottom = window.visualViewport?.height ?? window.innerHeight;
    return (
      box.top >= 0 && box.bottom <= bottom + 0.5 && document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2) === button
    );
  });

export function sunAndWet(stage: { readonly page: () => Page; readonly scan: (kind?: string) => Promise<unknown> }): void {
  const { scan } = stage;
  describe('a small phone', () => {
    const SIZES = [
      [320, 640],
      [360, 640],
      [640, 360],
      [800, 360],
    ] as const;
    test.each(SIZES)(
      'at %i x %i px keys and choices are large and apart, Save is in view, letters and contrast are those for the sun',
      async (width, height) => {
        const page = stage.page();
        await page.setViewportSize({ width, height });
        await scan();
        await page.locator('label.choice:has(input[name="amount"][value="weight"])').tap();
        await page.locator('.pad button').first().waitFor();
        for (const details of await page.locator('details > summary').all()) await details.tap();
        const targets = await targetsOf(page);
        expect([...tooSmall(targets, BIN_SIDE_PX), ...tooNear(targets, GAP_PX)]).toEqual([]);
        const keys = await page
          .locator('.pad button')
          .evaluateAll((all) => all.map((key) => key.getBoundingClientRect().toJSON() as DOMRect));
        expect(keys.length).toBe(15);
        expect(Math.min(...keys.map((key) => key.width))).toBeGreaterThanOrEqual(96);
        expect(Math.min(...keys.map((key) => key.height))).toBeGreaterThanOrEqual(64);
        await page.evaluate(() => scrollTo(0, 0));
        expect(await saveIsInView(page)).toBe(true);
        expect(await sidewaysPx(page)).toBe(0);
        const letters = await page.evaluate(() => {
          const texts = document.createTreeWalker(document.querySelector('main')!, NodeFilter.SHOW_TEXT);
          let smallest = Number.POSITIVE_INFINITY;
          while (texts.nextNode()) {
            const holder = texts.currentNode.parentElement!;
            if (texts.currentNode.textContent?.trim() && holder.checkVisibility())
              smallest = Math.min(smallest, parseFloat(getComputedStyle(holder).fontSize));
          }
          return { smallest, number: parseFloat(getComputedStyle(document.querySelector('#weight')!).fontSize) };
        });
        expect(letters.smallest).toBeGreaterThanOrEqual(18);
        expect(letters.number).toBeGreaterThanOrEqual(32);
      },
    );

    test('the words stand out seven to one, by day on a phone set to dark too', async () => {
      const page = stage.page();
      await page.setViewportSize({ width: 360, height: 640 });
      await page.emulateMedia({ colorScheme: 'dark' });
      for (const kind of ['feeding', 'check', 'harvest']) {
        await scan(kind);
        const paper = await page.evaluate(() => getComputedStyle(document.body).colorScheme);
        expect(paper).toBe('light');
        const { violations } = await new AxeBuilder({ page }).setLegacyMode(true).withRules(['color-contrast-enhanced']).analyze();
        expect(violations.flatMap((v) => v.nodes.map((node) => node.target.join(' ')))).toEqual([]);
      }
      await page.emulateMedia({ colorScheme: 'light' });
    });

    test('the keyboard of the phone does not cover Save', async () => {
      const page = stage.page();
      await scan('harvest');
      await page.evaluate(() => {
        const view = window.visualViewport!;
        Object.defineProperty(view, 'height', { configurable: true, get: () => 340 });
        view.dispatchEvent(new Event('resize'));
      });
      expect(await saveIsInView(page)).toBe(true);
      await page.setViewportSize({ width: 360, height: 340 });
      await scan('harvest');
      expect(await saveIsInView(page)).toBe(true);
      await page.setViewportSize({ width: 360, height: 640 });
    });

    test('letters twice as large push nothing off the side at 320 px', async () => {
      const page = stage.page();
      await page.setViewportSize({ width: 320, height: 640 });
      for (const kind of ['feeding', 'check', 'harvest']) {
        await scan(kind);
        await page.evaluate(() => {
          document.documentElement.style.fontSize = '200%';
        });
        expect(await sidewaysPx(page), kind).toBe(0);
        expect(await page.locator('.save button').evaluate((b) => b.scrollWidth - b.clientWidth)).toBeLessThanOrEqual(0);
      }
      await page.setViewportSize({ width: 360, height: 640 });
    });
  });
}
