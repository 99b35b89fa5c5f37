/** A printed label as a picture, mud on it, and what a decoder that is not ours makes of it (criteria B20). */
import jsQR from 'jsqr';
import { labelQr, QR_WIDTH_MM, QUIET_MODULES } from '../../apps/web/src/lib/labels/label-qr.ts';

/** Of the label on paper; tests/browser/on-paper.test.ts measures that it is so. */
export const LABEL_MM = { width: 186, height: 64, edge: 2 } as const;
const PX_PER_MM = 4;
const INK = 20;
const PAPER = 240;

export interface Picture {
  readonly grey: Uint8Array;
  readonly width: number;
  readonly height: number;
}
export type Chance = () => number;

/** A label with its code at both ends, as large as four pixels to the millimetre make it. */
export function pictured(address: string): Picture {
  const { modules, path } = labelQr(address);
  const [width, height] = [LABEL_MM.width * PX_PER_MM, LABEL_MM.height * PX_PER_MM];
  const across = modules + 2 * QUIET_MODULES;
  const dark = new Set<number>();
  for (const [, x, y, run] of path.matchAll(/M(\d+) (\d+)h(\d+)/g))
    for (let i = 0; i < Number(run); i += 1) dark.add(Number(y) * across + Number(x) + i);
  const grey = new Uint8Array(width * height).fill(PAPER);
  const codePx = QR_WIDTH_MM * PX_PER_MM;
  const top = Math.round((height - codePx) / 2);
  for (const left of [LABEL_MM.edge * PX_PER_MM, width - LABEL_MM.edge * PX_PER_MM - codePx])
    for (let y = 0; y < codePx; y += 1)
      for (let x = 0; x < codePx; x += 1) {
        const at = Math.floor((y / codePx) * across) * across + Math.floor((x / codePx) * across);
        if (dark.has(at)) grey[(top + y) * width + left + x] = INK;
      }
  return { grey, width, height };
}

/** Mud darkens paper and leaves ink as it is. */
const muddied = (picture: Picture, mudGrey: number, isUnder: (x: number, y: number) => boolean): Picture => ({
  ...picture,
  grey: picture.grey.map((value, i) => (isUnder(i % picture.width, Math.floor(i / picture.width)) ? Math.min(value, mudGrey) : value)),
});

/** One round splash, so large that `part` of the whole label is under it, wherever its middle falls. */
export function oneSplash(picture: Picture, part: number, mudGrey: number, chance: Chance): Picture {
  const { width, height } = picture;
  const [cx, cy] = [width * chance(), height * chance()];
  const far = (x: number, y: number) => (x - cx) ** 2 + (y - cy) ** 2;
  const all = Float64Array.from(picture.grey, (_, i) => far(i % width, Math.floor(i / width))).sort();
  const reach = all[Math.floor(part * all.length)]!;
  return muddied(picture, mudGrey, (x, y) => far(x, y) <= reach);
}

/** The sheet of docs/field-trial.md: `fields` of the 100 fields of 10 by 10 that lie over each of the two codes. */
export function fieldsUnder(picture: Picture, fields: number, mudGrey: number, chance: Chance): Picture {
  const { width, height } = picture;
  const cells = [new Set<number>(), new Set<number>()];
  for (const cell of cells) while (cell.size < fields) cell.add(Math.floor(chance() * 100));
  return muddied(picture, mudGrey, (x, y) => {
    const isLeft = x < height;
    if (!isLeft && x < width - height) return false;
    const column = Math.floor(((isLeft ? x : x - (width - height)) / height) * 10);
    return cells[isLeft ? 0 : 1]!.has(Math.floor((y / height) * 10) * 10 + column);
  });
}

/** What a phone reads that is held to one end of the label. */
export function readEnd({ grey, width, height }: Picture, end: 'left' | 'right'): string | null {
  const from = end === 'left' ? 0 : width - height;
  const colours = new Uint8ClampedArray(height * height * 4).fill(255);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < height; x += 1) colours.fill(grey[y * width + from + x]!, 4 * (y * height + x), 4 * (y * height + x) + 3);
  return jsQR(colours, height, height)?.data ?? null;
}

export const readEnds = (picture: Picture): (string | null)[] => [readEnd(picture, 'left'), readEnd(picture, 'right')];
