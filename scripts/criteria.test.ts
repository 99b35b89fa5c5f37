import { describe, expect, it } from 'vitest';
import { criteriaText, idsOf, namesIn } from './gen/criteria.mjs';

describe('the table of criteria', () => {
  it.each([
    ['C1 C2 two browsers race', ['C1', 'C2']],
    ['C13, C14: two parsers read the same', ['C13', 'C14']],
    ['A7: sixty bins', ['A7']],
    ['does not flicker (A15)', ['A15']],
    ['prints an A4 sheet', []],
    ['Bin C3 is fed', []],
    ['B12A is no criterion', []],
  ])('reads "%s" as claiming %j', (name, ids) => {
    expect(idsOf(name)).toEqual(ids);
  });

  it('finds names in every kind of quotes, also of tables', () => {
    const text = `test('C1: one', () => {}); it.each([[1, (2)]])("C2: it's %i", f); describe(\`C3: \${n}\`, f); it('isn\\'t', f); test.each(titled(routes))('C4: all', f);`;
    expect(namesIn(text)).toEqual(['C1: one', "C2: it's %i", `C3: $\{n}`, "isn\\'t", 'C4: all']);
  });

  it('says of a criterion without a test that it has none, and gives the day of a long run', () => {
    const text = criteriaText((path: string) =>
      path.endsWith('proofs.md')
        ? '| F3 | `x` | 2026-11-25 | fine |\n| F8 | `y` | 2026-11-26 | **red** late |'
        : path.endsWith('kill.proof.ts')
          ? "test('F3: 200 kills', f)"
          : path.endsWith('rules/sql.ts')
            ? "  name: 'E17: no value put into SQL',"
            : '',
    );
    expect(text).toContain('| A1 | no test yet |  |  |');
    expect(text).toContain('| F3 |  | `tests/faults/kill.proof.ts` | 2026-11-25 |');
    expect(text).toContain('| F8 | no test yet |  | 2026-11-26, red |');
    expect(text).toContain('| E17 | `tests/tidy/conventions.test.ts` |  |  |');
    expect(text).toContain('| F27 | measured: `npm run bench -- load` |  |  |');
    expect(text).toContain('| H24 | as G1 |  |  |');
  });
});
