import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const folder = new URL('.', import.meta.url);
const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
  (path) => path.endsWith('.ts') && !path.endsWith('.test.ts'),
);
const headings = readFileSync(new URL('../../../shared/sources.md', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => line.startsWith('### '))
  .map((line) => line.slice('### '.length));

/** A source is a key of shared/sources.md, alone or followed by which part of it or why. */
const resolves = (source: string): boolean =>
  headings.some((heading) => source === heading || (source.startsWith(heading) && /^[\s:,;.\d]/.test(source.slice(heading.length))));

const sourcesOf = (text: string): readonly string[] => [
  ...[...text.matchAll(/parameter\(\s*[^,]+,\s*'[^']*',\s*'[^']*',\s*'((?:[^'\\]|\\.)*)'/g)].map((found) => found[1] ?? ''),
  ...[...text.matchAll(/@source ([^*\n]+)/g)].map((found) => (found[1] ?? '').trim()),
];

describe('sources', () => {
  const cited = files.flatMap((path) => sourcesOf(readFileSync(new URL(path, folder), 'utf8')).map((source) => ({ path, source })));

  it('are named beside more than a hundred figures and equations', () => {
    expect(cited.length).toBeGreaterThan(100);
  });

  it('each resolve in shared/sources.md', () => {
    expect(cited.filter(({ source }) => !resolves(source)).map(({ path, source }) => `${path}: ${source}`)).toEqual([]);
  });
});
