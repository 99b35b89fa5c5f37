import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * Writes styles/plain.gen.css: the colours of tokens.css as plain values for both papers.
 *
 * Phones older than Safari 17.5 or Chrome 123 know neither light-dark() nor oklch(), and a
 * custom property they cannot read would leave the page without ink. They get these instead.
 *
 * Run: npx tsx apps/web/gen/plain-papers.ts
 */
const styles = new URL('../src/styles/', import.meta.url);

type Papers = { name: string; day: string; night: string };

/** OKLCH to sRGB as #rrggbb. @source Ottosson 2020, "A perceptual color space for image processing" (matrices as in CSS Color 4) */
export function oklchToHex(lightness: number, chroma: number, hueDeg: number): string {
  const hue = (hueDeg * Math.PI) / 180;
  const a = chroma * Math.cos(hue);
  const b = chroma * Math.sin(hue);
  const l = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (lightness - 0.0894841775 * a - 1.291485548 * b) ** 3;
  const linear = [
    4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
    -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
    -0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s,
  ];
  const byte = (x: number) => {
    const clipped = Math.min(1, Math.max(0, x));
    const coded = clipped <= 0.0031308 ? 12.92 * clipped : 1.055 * clipped ** (1 / 2.4) - 0.055;
    return Math.round(coded * 255)
      .toString(16)
      .padStart(2, '0');
  };
  return `#${linear.map(byte).join('')}`;
}

export function readPapers(tokens: string): Papers[] {
  const pattern = /(--[\w-]+):\s*light-dark\(oklch\(([^)]+)\),\s*oklch\(([^)]+)\)\)/g;
  const hex = (parts: string) => {
    const [l, c, h] = parts.trim().split(/\s+/).map(Number);
    return oklchToHex(l ?? 0, c ?? 0, h ?? 0);
  };
  return [...tokens.matchAll(pattern)].map((m) => ({ name: m[1] ?? '', day: hex(m[2] ?? ''), night: hex(m[3] ?? '') }));
}

export function plainCss(tokens: string): string {
  const papers = readPapers(tokens);
  const list = (which: 'day' | 'night') => papers.map((p) => `${p.name}: ${p[which]};`).join(' ');
  return [
    '/* Made by gen/plain-papers.ts from tokens.css; do not edit. For browsers without light-dark() or oklch(). */',
    '@supports not ((color: light-dark(#000, #fff)) and (color: oklch(0 0 0))) {',
    `  :root { ${list('day')} }`,
    `  @media screen and (prefers-color-scheme: dark) { :root:not(.field) { ${list('night')} } }`,
    `  :root[data-paper="day"] { ${list('day')} }`,
    `  @media screen { :root[data-paper="night"] { ${list('night')} } }`,
    '  @media print { :root, :root.field, :root[data-paper] { --paper: #fff; --stock: #fff; } }',
    '}',
    '',
  ].join('\n');
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync(new URL('plain.gen.css', styles), plainCss(readFileSync(new URL('tokens.css', styles), 'utf8')));
}
