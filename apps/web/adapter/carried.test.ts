import { inflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { addressOf, carriedFiles } from './carried.js';
import { iconPng } from './icon.js';

const node = (n: number) => `.svelte-kit/generated/client-optimized/nodes/${n}.js`;
const chunks = {
  '../../node_modules/@sveltejs/kit/src/runtime/client/entry.js': { file: 'start.js', imports: ['_a.js'] },
  '.svelte-kit/generated/client-optimized/app.js': { file: 'app.js', dynamicImports: [node(0), node(2), node(3), 'words.ts'] },
  '_a.js': { file: 'a.js' },
  'words.ts': { file: 'words.js' },
  'chart.ts': { file: 'chart.js' },
  [node(0)]: { file: 'layout.js', css: ['layout.css'], imports: ['_a.js'] },
  [node(1)]: { file: 'error.js' },
  [node(2)]: { file: 'log.js', dynamicImports: ['outbox.ts', node(3)] },
  [node(3)]: { file: 'season.js', dynamicImports: ['chart.ts'] },
  'outbox.ts': { file: 'outbox.js' },
};
const routes = [
  { id: '/(app)/log', page: { layouts: [0, undefined], errors: [1], leaf: 2 } },
  { id: '/season', page: { layouts: [0], errors: [], leaf: 3 } },
];

describe('carriedFiles()', () => {
  it('is the frame, the pages that were asked for and what they fetch later, and no other page', () => {
    const files = ['a.js', 'app.js', 'error.js', 'layout.css', 'layout.js', 'log.js', 'outbox.js', 'start.js', 'words.js'];
    expect(carriedFiles(chunks, routes, ['/(app)/log'])).toEqual(files);
  });
  it('says which page there is not', () => {
    expect(() => carriedFiles(chunks, routes, ['/nowhere'])).toThrow('Cannot carry /nowhere as there is no such page');
  });
  it('knows the address of a route', () => {
    expect([addressOf('/(app)/bins/[id]/log'), addressOf('/(app)/waiting')]).toEqual(['/bins/*/log', '/waiting']);
  });
});

describe('iconPng()', () => {
  /** Colour in the middle of the cell of a 24 by 24 grid. */
  const colourAt = (png: Buffer, size: number, x: number, y: number) => {
    const start = png.indexOf('IDAT') + 4;
    const rows = inflateSync(png.subarray(start, start + png.readUInt32BE(start - 8)));
    const at = Math.floor(((y + 0.5) * size) / 24) * (size * 3 + 1) + 1 + Math.floor(((x + 0.5) * size) / 24) * 3;
    return [...rows.subarray(at, at + 3)];
  };
  it('is our mark, ink on paper, of the size that was asked for', () => {
    const png = iconPng(96);
    expect([png.toString('latin1', 1, 4), png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual(['PNG', 96, 96]);
    expect([colourAt(png, 96, 2, 18), colourAt(png, 96, 11, 6), colourAt(png, 96, 2, 2)]).toEqual([
      [0x20, 0x1b, 0x15],
      [0x20, 0x1b, 0x15],
      [0xf5, 0xf2, 0xea],
    ]);
  });
  it('leaves the edge free where it may be cut to a circle', () => {
    const png = iconPng(96, 0.62);
    expect([colourAt(png, 96, 2, 18), colourAt(png, 96, 11, 8)]).toEqual([
      [0xf5, 0xf2, 0xea],
      [0x20, 0x1b, 0x15],
    ]);
  });
});
