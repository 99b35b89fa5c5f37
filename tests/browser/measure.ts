/** Boxes of everything that can be pressed or typed into, as a finger meets them (criteria B2). */
import type { Page } from 'playwright-core';

export interface Target {
  readonly what: string;
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly top: number;
  /** A link inside a sentence is as high as its line and no higher. */
  readonly inSentence: boolean;
  /** Stays where it is while the page moves beneath it, so that what it stands near to changes. */
  readonly floats: boolean;
}

/** What can be pressed on the page, each once: a hidden radio is met as its label. */
export const targetsOf = (page: Page): Promise<Target[]> =>
  page.evaluate(() => {
    const boxes = new Map<Element, Target>();
    for (const element of document.querySelectorAll('a[href], button, input:not([type="hidden"]), select, textarea, summary')) {
      const isTick = element instanceof HTMLInputElement && (element.type === 'radio' || element.type === 'checkbox');
      const met = (isTick && element.closest('label')) || element;
      const box = met.getBoundingClientRect();
      const style = getComputedStyle(met);
      const isShown = met.checkVisibility({ visibilityProperty: true }) && box.width > 1 && box.height > 1 && box.bottom > 0;
      if (!isShown || style.clipPath !== 'none') continue;
      const around = [...(met.parentElement?.childNodes ?? [])].filter((node) => node !== met && node.nodeType === Node.TEXT_NODE);
      const inSentence = style.display === 'inline' && around.some((node) => (node.textContent ?? '').trim() !== '');
      const name = met.getAttribute('aria-label') ?? met.getAttribute('name') ?? met.textContent?.trim().replace(/\s+/g, ' ').slice(0, 40);
      let floats = false;
      for (let at: Element | null = met; at !== null; at = at.parentElement)
        floats ||= ['fixed', 'sticky'].includes(getComputedStyle(at).position);
      const [left, top] = [box.left + scrollX, box.top + scrollY];
      boxes.set(met, { what: `${met.localName} ${name}`, width: box.width, height: box.height, left, top, inSentence, floats });
    }
    return [...boxes.values()];
  });

const HALF_PX = 0.5;

/** Targets smaller than they may be, a line each. */
export function tooSmall(targets: readonly Target[], leastPx: number): string[] {
  return targets
    .filter((t) => !t.inSentence && (t.width < leastPx - HALF_PX || t.height < leastPx - HALF_PX))
    .map((t) => `${t.what}: ${Math.round(t.width)} x ${Math.round(t.height)}`);
}

/** Pairs that stand nearer to each other than they may; one inside the other is no pair, and what floats is left out. */
export function tooNear(targets: readonly Target[], leastPx: number): string[] {
  const found: string[] = [];
  const whole = targets.filter((t) => !t.inSentence && !t.floats);
  for (const [i, a] of whole.entries())
    for (const b of whole.slice(i + 1)) {
      const across = Math.max(a.left - (b.left + b.width), b.left - (a.left + a.width));
      const down = Math.max(a.top - (b.top + b.height), b.top - (a.top + a.height));
      const gap = Math.max(across, down);
      if (gap < leastPx - HALF_PX && gap > -HALF_PX) found.push(`${a.what} | ${b.what}: ${Math.round(gap)}`);
    }
  return found;
}
