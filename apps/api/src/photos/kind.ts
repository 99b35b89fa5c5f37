/** Tells a picture by its first bytes; what it calls itself counts for nothing. */

export type PictureKind = 'jpeg' | 'png' | 'webp' | 'heic' | 'unknown';

/** As many bytes as `kindOf` looks at. */
export const HEAD_BYTES = 16;

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** Brands of ISO/IEC 23008-12, annex B: what phones call their HEVC pictures. */
const HEIC_BRANDS = new Set(['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'mif1', 'msf1']);

export function kindOf(head: Uint8Array): PictureKind {
  const text = (from: number, to: number) => String.fromCharCode(...head.subarray(from, to));
  if (head[0] === 0xff && head[1] === 0xd8 && head[2] === 0xff) return 'jpeg';
  if (PNG.every((byte, at) => head[at] === byte)) return 'png';
  if (text(0, 4) === 'RIFF' && text(8, 12) === 'WEBP') return 'webp';
  if (text(4, 8) === 'ftyp' && HEIC_BRANDS.has(text(8, 12))) return 'heic';
  return 'unknown';
}
