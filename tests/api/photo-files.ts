/** Pictures made for the tests: good ones in every way a phone holds them, and the hostile set of criteria E12. */
import { deflateRawSync } from 'node:zlib';
import sharp, { type Sharp } from 'sharp';

const RED = { r: 220, g: 30, b: 30 };
const BLUE = { r: 30, g: 30, b: 220 };

/** Red at its left third, blue elsewhere, so that turning and mirroring show. */
export function flag(width = 90, height = 60): Sharp {
  const stripe = { create: { width: width / 3, height, channels: 3 as const, background: RED } };
  return sharp({ create: { width, height, channels: 3, background: BLUE } }).composite([{ input: stripe, left: 0, top: 0 }]);
}

/** The flag as a sensor saw it that was held in this way, which its EXIF tells (EXIF 2.32, table 5). */
export async function heldFlag(orientation: number): Promise<Buffer> {
  const upright = await flag().png().toBuffer();
  const turned = [0, 0, 180, 180, 90, 270, 270, 90][orientation - 1]!;
  const rotated = sharp(await sharp(upright).rotate(turned).png().toBuffer());
  const seen = [2, 4, 5, 7].includes(orientation) ? rotated.flop() : rotated;
  return seen.jpeg({ quality: 95 }).withMetadata({ orientation }).toBuffer();
}

const segment = (marker: number, content: Buffer): Buffer => {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(content.length + 2, 2);
  return Buffer.concat([head, content]);
};

/** A JPEG with segments put in after its start: APP1 holds EXIF and XMP, APP13 IPTC, COM anything. */
export const withSegments = (jpeg: Buffer, ...parts: readonly Buffer[]): Buffer =>
  Buffer.concat([jpeg.subarray(0, 2), ...parts, jpeg.subarray(2)]);

export const SECRETS = ['GPSLatitude-51.4775', 'xmp-creator-Wanda', 'iptc-byline-Wanda', 'comment-of-a-phone', 'PK-hidden-archive'];
export const xmp = segment(0xe1, Buffer.from(`http://ns.adobe.com/xap/1.0/\0<x:xmpmeta>${SECRETS[1]}</x:xmpmeta>`));
export const iptc = segment(0xed, Buffer.concat([Buffer.from('Photoshop 3.0'), Buffer.from([0]), Buffer.from(`8BIM${SECRETS[2]}`)]));
export const comment = segment(0xfe, Buffer.from(SECRETS[3]!));

/** Markers of a JPEG's segments before its picture data (ITU-T T.81, annex B). */
export function markersOf(jpeg: Buffer): number[] {
  const found: number[] = [];
  for (let at = 2; at + 4 <= jpeg.length; at += 2 + jpeg.readUInt16BE(at + 2)) {
    if (jpeg[at] !== 0xff) throw new Error(`no marker at byte ${at}`);
    found.push(jpeg[at + 1]!);
    if (jpeg[at + 1] === 0xda) break;
  }
  return found;
}

/** A PNG whose header tells any size at all, with hardly a byte behind it. */
function pngOf(width: number, height: number): Buffer {
  const crcTable = Array.from({ length: 256 }, (_, n) => {
    let c = n;
    for (let bit = 0; bit < 8; bit += 1) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
    return c >>> 0;
  });
  const crcOf = (bytes: Buffer) => {
    let crc = 0xffffffff;
    for (const byte of bytes) crc = crcTable[(crc ^ byte) & 0xff]! ^ (crc >>> 8);
    return (crc ^ 0xffffffff) >>> 0;
  };
  const chunk = (type: string, content: Buffer) => {
    const head = Buffer.alloc(4);
    head.writeUInt32BE(content.length);
    const named = Buffer.concat([Buffer.from(type), content]);
    const tail = Buffer.alloc(4);
    tail.writeUInt32BE(crcOf(named));
    return Buffer.concat([head, named, tail]);
  };
  const size = Buffer.alloc(13);
  size.writeUInt32BE(width, 0);
  size.writeUInt32BE(height, 4);
  size.set([8, 2, 0, 0, 0], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const data = Buffer.concat([Buffer.from([0x78, 0x01]), deflateRawSync(Buffer.alloc(1000))]);
  return Buffer.concat([signature, chunk('IHDR', size), chunk('IDAT', data), chunk('IEND', Buffer.alloc(0))]);
}

export interface HostileFile {
  readonly name: string;
  readonly bytes: Buffer;
  /** What the answer must say; `taken` where it is a photo after all, of which only the picture may stay. */
  readonly outcome: 'taken' | 'photo-unreadable' | 'photo-heic' | 'too-large';
}

/** The twenty files of criteria E12. */
export async function hostileFiles(): Promise<HostileFile[]> {
  const jpeg = await flag().jpeg().toBuffer();
  const png = await flag().png().toBuffer();
  const webp = await flag().webp().toBuffer();
  const file = (name: string, bytes: Buffer, outcome: HostileFile['outcome'] = 'photo-unreadable'): HostileFile => ({
    name,
    bytes,
    outcome,
  });
  const gps = await sharp(jpeg)
    .withExif({ IFD0: { Copyright: SECRETS[0]! }, IFD3: { GPSLatitude: '51/1 28/1 39/1' } })
    .jpeg()
    .toBuffer();
  const ftyp = (brand: string) =>
    Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from(`ftyp${brand}\0\0\0\0${brand}mif1`), Buffer.alloc(200)]);
  const svg = '<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>';
  return [
    file('an SVG with a script', Buffer.from(svg)),
    file('an SVG behind a byte order mark', Buffer.from(`\ufeff<?xml version="1.0"?>${svg}`)),
    file('a page', Buffer.from('<!doctype html><script>alert(1)</script>')),
    file('a GIF', await flag().gif().toBuffer()),
    file('a TIFF', await flag().tiff().toBuffer()),
    file('a PDF', Buffer.from('%PDF-1.7\n1 0 obj <<>> endobj\ntrailer <<>>\n%%EOF')),
    file('nothing at all', Buffer.alloc(0)),
    file('three bytes of a JPEG', jpeg.subarray(0, 3)),
    file('a JPEG cut in the middle', jpeg.subarray(0, Math.floor(jpeg.length / 2))),
    file('a JPEG whose tables are noise', Buffer.concat([jpeg.subarray(0, 20), Buffer.alloc(600, 0x5a)])),
    file('a PNG with a spoilt checksum', Buffer.concat([png.subarray(0, 60), Buffer.from([png[60]! ^ 0xff]), png.subarray(61)])),
    file('a PNG that says 40,000 by 40,000', pngOf(40_000, 40_000)),
    file('a PNG of 51 megapixels', pngOf(8_000, 6_400)),
    file('a WebP cut short', webp.subarray(0, 40)),
    file('a HEIC', ftyp('heic'), 'photo-heic'),
    file('a HEIF of a burst', ftyp('msf1'), 'photo-heic'),
    file('an AVIF', ftyp('avif')),
    file('more than 8 MB', Buffer.concat([jpeg, Buffer.alloc(8 * 1024 * 1024)]), 'too-large'),
    file('a JPEG that is an archive too', Buffer.concat([jpeg, Buffer.from(`PK\u0003\u0004${SECRETS[4]}`)]), 'taken'),
    file('a JPEG with place, person and comment', withSegments(gps, xmp, iptc, comment), 'taken'),
  ];
}
