import { describe, expect, test } from 'vitest';
import { allFiles, type SourceFile, type TidyRule } from './rule.ts';
import { rules } from './rules/registry.ts';

const titled = (files: readonly SourceFile[]) =>
  files.map((file) => [(file.text || file.path).replace(/\s+/g, ' ').slice(0, 70), file] as const);

const list = (rule: TidyRule, file: SourceFile): string[] => rule.complaints(file).map(({ line, what }) => `${file.path}:${line} ${what}`);

describe.each(rules)('$name', (rule) => {
  test('holds in every file', () => {
    const files = allFiles.filter(({ path }) => rule.applies(path));
    expect(files.flatMap((file) => list(rule, file))).toEqual([]);
  });

  test.each(titled(rule.caught))('catches %s', (_, file) => {
    expect(rule.applies(file.path)).toBe(true);
    expect(list(rule, file)).not.toEqual([]);
  });

  test.each(titled(rule.allowed))('allows %s', (_, file) => {
    expect(rule.applies(file.path) ? list(rule, file) : []).toEqual([]);
  });
});

test('the rules see the source and not only themselves', () => {
  const seen = allFiles.filter(({ path }) => path.startsWith('packages/domain/src/'));
  expect(seen.length).toBeGreaterThan(10);
});
