/** Colours of a picture of a page, as an eye meets them: chroma in OKLCH, contrast, and what colour-blind eyes make of both. */
import type { Locator } from 'playwright-core';
import sharp from 'sharp';

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue of the pixel, 0 to 255 each. */
  at(x: number, y: number): readonly [number, number, number];
}

export async function readPicture(png: Buffer): Promise<Picture> {
  const { data, info } = await sharp(png).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  const { width, height } = info;
  return { width, height, at: (x, y) => [data[3 * (y * width + x)]!, data[3 * (y * width + x) + 1]!, data[3 * (y * width + x) + 2]!] };
}

export type Rgb = readonly [number, number, number];
const linear = (c: number) => (c <= 0.04045 * 255 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4);

/** Chroma in OKLCH (CSS Color 4). */
export function chromaOf(rgb: Rgb): number {
  const [r, g, b] = [linear(rgb[0]), linear(rgb[1]), linear(rgb[2])];
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return Math.hypot(1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s, 0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s);
}

/** Machado, Oliveira and Fernandes 2009, full severity, on linear light; grey keeps luminance alone. */
export const EYES = {
  protanopia: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
  deuteranopia: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
  tritanopia: [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039],
  grey: [0.2126, 0.7152, 0.0722, 0.2126, 0.7152, 0.0722, 0.2126, 0.7152, 0.0722],
} as const;
export type Eye = keyof typeof EYES;

/** Luminance (WCAG) of a colour as such an eye sees it. */
export function luminanceTo(eye: Eye, rgb: Rgb): number {
  const k = EYES[eye];
  const [r, g, b] = [linear(rgb[0]), linear(rgb[1]), linear(rgb[2])];
  const seen = [0, 3, 6].map((row) => Math.min(1, Math.max(0, k[row]! * r + k[row + 1]! * g + k[row + 2]! * b)));
  return 0.2126 * seen[0]! + 0.7152 * seen[1]! + 0.0722 * seen[2]!;
}

export const contrast = (a: number, b: number): number => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);

/** How many pixels of it stand out from its ground, the colour of its corner, by so much. */
export async function drawn(one: Locator, by: number): Promise<number> {
  const picture = await readPicture(await one.screenshot());
  const ground = luminanceTo('grey', picture.at(0, 0));
  let count = 0;
  for (let y = 0; y < picture.height; y += 1)
    for (let x = 0; x < picture.width; x += 1) if (contrast(luminanceTo('grey', picture.at(x, y)), ground) >= by) count += 1;
  return count;
}
