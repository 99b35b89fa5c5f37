/** Counts what the kernel really does: its own program, rewritten so that every arithmetic operation and every call of Math adds to a count. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Scenario } from '@middenry/domain';
import { build } from 'esbuild';
import ts from 'typescript';

export interface Counted {
  /** Plus, minus, times and divide, those of array places among them. */
  readonly arithmetic: number;
  /** exp, pow, log, cbrt: what takes a series. */
  readonly series: number;
}

const ARITHMETIC: ReadonlySet<ts.SyntaxKind> = new Set([
  ts.SyntaxKind.PlusToken,
  ts.SyntaxKind.MinusToken,
  ts.SyntaxKind.AsteriskToken,
  ts.SyntaxKind.SlashToken,
]);
const AND_SET: ReadonlySet<ts.SyntaxKind> = new Set([
  ts.SyntaxKind.PlusEqualsToken,
  ts.SyntaxKind.MinusEqualsToken,
  ts.SyntaxKind.AsteriskEqualsToken,
  ts.SyntaxKind.SlashEqualsToken,
]);
const SERIES = ['exp', 'pow', 'log', 'cbrt', 'expm1', 'log1p', 'tanh'] as const;

/** Work per member-day, counted over some days of a bin. */
export async function countKernel(scenario: Scenario, days: number): Promise<Counted> {
  const entry = fileURLToPath(new URL('../packages/domain/src/index.ts', import.meta.url));
  const built = await build({ entryPoints: [entry], bundle: true, format: 'esm', write: false, target: 'es2022' });
  const counts = { arithmetic: 0, series: 0 };
  Object.assign(globalThis, { middenryCounts: counts });
  const dir = mkdtempSync(join(tmpdir(), 'middenry-counted-'));
  const file = join(dir, 'counted.mjs');
  writeFileSync(file, counting(built.outputFiles[0]?.text ?? ''));
  const giveBack = countSeries(counts);
  try {
    const { startRun, advance } = (await import(pathToFileURL(file).href)) as typeof import('@middenry/domain');
    const run = startRun(scenario, { recordsRows: false });
    Object.assign(counts, { arithmetic: 0, series: 0 });
    advance(run, days);
    const memberDays = days * scenario.members;
    return { arithmetic: counts.arithmetic / memberDays, series: counts.series / memberDays };
  } finally {
    giveBack();
    rmSync(dir, { recursive: true, force: true });
  }
}

function countSeries(counts: { series: number }): () => void {
  const before = SERIES.map((name) => [name, Math[name]] as const);
  for (const [name, work] of before)
    Object.assign(Math, {
      [name]: (...args: [number, number]) => {
        counts.series++;
        return (work as (...of: number[]) => number)(...args);
      },
    });
  return () => void Object.assign(Math, Object.fromEntries(before));
}

/** `a * b` becomes `(middenryCounts.arithmetic++, a * b)`; `a ** b` counts as a series. */
function counting(text: string): string {
  const add = (name: keyof Counted) =>
    ts.factory.createPostfixIncrement(
      ts.factory.createPropertyAccessExpression(ts.factory.createIdentifier('globalThis.middenryCounts'), name),
    );
  const rewrite: ts.TransformerFactory<ts.SourceFile> = (context) => (file) => {
    const visit = (node: ts.Node): ts.Node => {
      const inside = ts.visitEachChild(node, visit, context);
      if (!ts.isBinaryExpression(inside)) return inside;
      const kind = inside.operatorToken.kind;
      const name =
        ARITHMETIC.has(kind) || AND_SET.has(kind) ? 'arithmetic' : kind === ts.SyntaxKind.AsteriskAsteriskToken ? 'series' : null;
      if (name === null) return inside;
      return ts.factory.createParenthesizedExpression(ts.factory.createComma(add(name), inside));
    };
    return ts.visitNode(file, visit) as ts.SourceFile;
  };
  const file = ts.createSourceFile('kernel.mjs', text, ts.ScriptTarget.ES2022, true, ts.ScriptKind.JS);
  const { transformed } = ts.transform(file, [rewrite]);
  return ts.createPrinter().printFile(transformed[0] as ts.SourceFile);
}
