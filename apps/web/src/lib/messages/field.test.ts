import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cautionsAt } from '@middenry/domain';
import { expect, it } from 'vitest';
import { field } from './en/field.ts';
import { leads } from './en/leads.ts';
import { others } from './en/others.ts';
import { field as spanish } from './es/field.ts';

/** Words that come only with other pages; of what can go wrong a part is there from the start. */
const NAMES = new Set([...Object.keys(others), ...Object.keys(leads)].filter((name) => !(name in field)));
const SRC = fileURLToPath(new URL('../../', import.meta.url));
const LOG_PAGE = [
  'routes/+layout.svelte',
  'routes/+layout.ts',
  'routes/+error.svelte',
  'routes/(app)/+layout.svelte',
  'routes/(app)/+layout.ts',
].concat(['routes/(app)/bins/[id]/log/+page.svelte', 'routes/(app)/bins/[id]/log/+page.ts', 'hooks.client.ts']);

/** Every file that comes with the log page at once, following imports by name; what is imported when needed is not followed. */
function comesWith(path: string, seen: Map<string, string>): void {
  if (seen.has(path) || path.includes('lib/messages/') || !existsSync(join(SRC, path))) return;
  const text = readFileSync(join(SRC, path), 'utf8');
  seen.set(path, text);
  for (const [, from] of text.matchAll(/^\s*(?:import|export|\}) [^;]*?from '([^']+)'/gm)) {
    if (from?.startsWith('$lib/')) comesWith(join('lib', from.slice('$lib/'.length)), seen);
    else if (from?.startsWith('.')) comesWith(join(dirname(path), from), seen);
  }
}

it('B26: the log page and its frame say nothing that a phone has not fetched with them', () => {
  const seen = new Map<string, string>();
  for (const path of LOG_PAGE) comesWith(path, seen);
  expect(seen.size).toBeGreaterThan(40);
  const reading = [...seen].filter(([, text]) => /import \{[^}]*\bwords\b[^}]*\} from '[^']*messages\/index\.ts'/.test(text));
  expect(reading.length).toBeGreaterThan(15);
  const missing = reading.flatMap(([path, text]) =>
    [...text.matchAll(/(?<![\w$])words\.(\w+)/g)].filter(([, key]) => NAMES.has(String(key))).map(([, key]) => `${path}: ${key}`),
  );
  expect(missing).toEqual([]);
});

it('B26: every caution that is told at the bin is among the words fetched with it', () => {
  const told = (['feeding', 'check', 'care', 'harvest', 'worms'] as const).flatMap((place) => cautionsAt(place).cautions);
  expect(told.length).toBeGreaterThan(10);
  for (const one of [field, spanish]) expect(told.filter((id) => !(id in one.cautions))).toEqual([]);
});
