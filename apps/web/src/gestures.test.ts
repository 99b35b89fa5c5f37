import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const SRC = fileURLToPath(new URL('.', import.meta.url));
/** Where a finger is heard before it leaves, held down, dragged or shaken; a press is heard as `click` alone. */
const GESTURES =
  /\bon(?:touch|pointer|mouse(?!leave)|drag|dbl|contextmenu)\w*=|addEventListener\(\s*'(?:touch|pointer|mouse|drag|dblclick|contextmenu|devicemotion)|draggable=|touch-action: none/;

it('B4: nothing on the pages waits for a long press, a swipe, a drag, a double tap or a shake', () => {
  const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' }).filter(
    (path) => /\.(svelte|ts|css)$/.test(path) && !path.endsWith('.test.ts'),
  );
  expect(files.length).toBeGreaterThan(300);
  expect(files.filter((path) => GESTURES.test(readFileSync(join(SRC, path), 'utf8')))).toEqual([]);
  // What it looks for it finds.
  for (const said of ['<div onpointerdown={x}>', "addEventListener('touchstart', x)", '<li draggable="true">'])
    expect(said).toMatch(GESTURES);
});
