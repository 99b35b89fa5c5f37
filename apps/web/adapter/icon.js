/** Our mark as a PNG, drawn by code so that it can be had in any size. */
import { deflateSync } from 'node:zlib';

const PAPER = [0xf5, 0xf2, 0xea];
const INK = [0x20, 0x1b, 0x15];
const BOX = 24;
const STROKE = 3;
/** The line of static/mark.svg, as points and curves. */
const LINE = /** @type {const} */ ([
  [1, 18.5, 1, 18.5, 4.5, 18.5, 4.5, 18.5],
  [4.5, 18.5, 8, 18.5, 6.5, 6, 12, 6],
  [12, 6, 17.5, 6, 16, 18.5, 19.5, 18.5],
  [19.5, 18.5, 19.5, 18.5, 23, 18.5, 23, 18.5],
]);
const STEPS = 24;

/**
 * @param {number} size width and height [px]
 * @param {number} share how much of it the mark fills; what may be cut to a circle keeps it within four fifths
 * @returns {Buffer}
 */
export function iconPng(size, share = 1) {
  const points = LINE.flatMap(([x0, y0, x1, y1, x2, y2, x3, y3]) =>
    Array.from({ length: STEPS + 1 }, (_, n) => [bezier(n / STEPS, x0, x1, x2, x3), bezier(n / STEPS, y0, y1, y2, y3)]),
  );
  const perPx = BOX / (size * share);
  const rows = Buffer.alloc(size * (size * 3 + 1));
  for (let y = 0; y < size; y += 1)
    for (let x = 0; x < size; x += 1) {
      const [u, v] = [(x + 0.5 - size / 2) * perPx + BOX / 2, (y + 0.5 - size / 2) * perPx + BOX / 2];
      const inside = Math.min(u - 1, 23 - u) / perPx + 0.5;
      const ink = clamp(Math.min((STROKE / 2 - distance(points, u, v)) / perPx + 0.5, inside));
      for (const [channel, paper] of PAPER.entries())
        rows[y * (size * 3 + 1) + 1 + x * 3 + channel] = Math.round(paper + ink * ((INK[channel] ?? 0) - paper));
    }
  return png(size, rows);
}

const clamp = (/** @type {number} */ value) => Math.max(0, Math.min(1, value));
/** @param {number} t @param {number} a @param {number} b @param {number} c @param {number} d */
const bezier = (t, a, b, c, d) => (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t ** 2 * c + t ** 3 * d;

/** @param {readonly number[][]} points @param {number} u @param {number} v */
function distance(points, u, v) {
  let least = Number.POSITIVE_INFINITY;
  for (let n = 1; n < points.length; n += 1) {
    const [ax = 0, ay = 0] = points[n - 1] ?? [];
    const [bx = 0, by = 0] = points[n] ?? [];
    const [dx, dy] = [bx - ax, by - ay];
    const long = dx * dx + dy * dy;
    const at = long === 0 ? 0 : clamp(((u - ax) * dx + (v - ay) * dy) / long);
    least = Math.min(least, Math.hypot(u - ax - at * dx, v - ay - at * dy));
  }
  return least;
}

/** @source PNG, W3C Recommendation 2003, sections 5 and 11.2 @param {number} size @param {Buffer} rows */
function png(size, rows) {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(size, 0);
  head.writeUInt32BE(size, 4);
  head.set([8, 2, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    part('IHDR', head),
    part('IDAT', deflateSync(rows, { level: 9 })),
    part('IEND', Buffer.alloc(0)),
  ]);
}

/** @param {string} name @param {Buffer} data */
function part(name, data) {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(checksum(body));
  return Buffer.concat([length, body, sum]);
}

/** CRC-32, annex D of the same. @param {Buffer} bytes */
function checksum(bytes) {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return (sum ^ 0xffffffff) >>> 0;
}
