/** What a page looks like on paper (criteria D13): sheets, ink, and words that are cut. */
import type { Page } from 'playwright-core';
import { contrast, luminanceTo, type Rgb } from './pixels.ts';

export const PAPERS = ['A4', 'Letter'] as const;
/** Between the margins of print.css on A4, the narrower paper. */
const SHEET_PX = { width: 688, height: 960 };
const WEAK_INK = 0.7;

/** How many sheets the page takes. */
export async function sheetsOf(page: Page, format: (typeof PAPERS)[number]): Promise<number> {
  const pdf = (await page.pdf({ format })).toString('latin1');
  return [...pdf.matchAll(/\/Type \/Page\b/g)].length;
}

/** Runs `look` while the page stands as it is printed. */
export async function asPrinted<T>(page: Page, look: () => Promise<T>): Promise<T> {
  const before = page.viewportSize();
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize(SHEET_PX);
  try {
    return await look();
  } finally {
    await page.emulateMedia({ media: null });
    if (before) await page.setViewportSize(before);
  }
}

/** Every word that is printed, its contrast with the paper where the ink is at 70 %, and how much of its box is cut off. */
export async function inkOf(page: Page): Promise<{ text: string; contrast: number; cutPx: number }[]> {
  const found = await page.evaluate(() => {
    const pen = Object.assign(document.createElement('canvas'), { width: 1, height: 1 }).getContext('2d', { willReadFrequently: true })!;
    const rgbOf = (colour: string) => {
      pen.clearRect(0, 0, 1, 1);
      pen.fillStyle = colour;
      pen.fillRect(0, 0, 1, 1);
      return [...pen.getImageData(0, 0, 1, 1).data.slice(0, 3)];
    };
    const nodes = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const all: { text: string; rgb: number[]; cutPx: number }[] = [];
    while (nodes.nextNode()) {
      const text = nodes.currentNode.textContent!.trim();
      const holder = nodes.currentNode.parentElement!;
      const isOff = holder.closest('.off, .sprite, title, script') !== null;
      if (text === '' || isOff || !holder.checkVisibility({ visibilityProperty: true })) continue;
      const style = getComputedStyle(holder);
      const colour = holder instanceof SVGElement ? style.fill : style.color;
      let cutPx = 0;
      for (let box: Element | null = holder; box instanceof HTMLElement; box = box.parentElement)
        if (getComputedStyle(box).overflowX !== 'visible') cutPx = Math.max(cutPx, box.scrollWidth - box.clientWidth);
      all.push({ text, rgb: rgbOf(colour), cutPx });
    }
    return all;
  });
  return found.map(({ text, rgb, cutPx }) => {
    const weak = rgb.map((c) => 255 - WEAK_INK * (255 - c)) as unknown as Rgb;
    return { text, contrast: contrast(1, luminanceTo('grey', weak)), cutPx };
  });
}
