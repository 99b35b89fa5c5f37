import ts from 'typescript';
import { isScript, isTidy, type TidyRule, walk } from '../rule.ts';

const isUnits = (path: string): boolean => path.startsWith('packages/domain/src/units/');
const product = (parts: readonly number[]): number => parts.reduce((all, part) => all * part, 1);

/** A day in seconds or milliseconds: adding one is wrong on two days of the year. */
const dayLengths = new Set([86_400, 86_400_000]);

function numbersOf(node: ts.Expression): readonly number[] | undefined {
  if (ts.isParenthesizedExpression(node)) return numbersOf(node.expression);
  if (ts.isNumericLiteral(node)) return [Number(node.text.replaceAll('_', ''))];
  if (ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.AsteriskToken) {
    const left = numbersOf(node.left);
    const right = numbersOf(node.right);
    return left && right ? [...left, ...right] : (left ?? right);
  }
  return undefined;
}

/** C11's lint. A length of time that is no calendar day (a time-out, a session's life) has its name in the domain's units. */
export const dayRule: TidyRule = {
  name: 'C11: no day made of seconds outside units',
  applies: (path) => isScript(path) && !isUnits(path) && !isTidy(path) && !path.startsWith('scripts/'),
  complaints: (file) => {
    const found: { line: number; what: string }[] = [];
    walk(file, (node, line) => {
      const outermost = ts.isBinaryExpression(node) && !(ts.isBinaryExpression(node.parent) && numbersOf(node.parent));
      if (!ts.isNumericLiteral(node) && !outermost) return;
      const numbers = numbersOf(node as ts.Expression) ?? [];
      const isDay =
        dayLengths.has(product(numbers)) || (numbers.includes(24) && numbers.includes(60)) || numbers.some((n) => dayLengths.has(n));
      if (isDay)
        found.push({
          line,
          what: `${node.getText(node.getSourceFile())}: add calendar days with Temporal, or name the length in packages/domain/src/units`,
        });
    });
    return found.filter((one, index) => found.findIndex((other) => other.line === one.line) === index);
  },
  caught: [
    { path: 'apps/api/src/a.ts', text: 'const tomorrow = now + 86400;' },
    { path: 'apps/api/src/a.ts', text: 'const tomorrow = now + 86_400_000;' },
    { path: 'apps/web/src/a.ts', text: 'const next = at + days * 24 * 60 * 60 * 1000;' },
    { path: 'seed/a.ts', text: 'const next = at + 24 * 3600 * 1000 * n;' },
  ],
  allowed: [
    { path: 'apps/api/src/a.ts', text: 'const timeoutMs = 60 * 1000;' },
    { path: 'packages/domain/src/units/time.ts', text: 'export const secondsPerDay = 86_400;' },
  ],
};

const clocks = /^(Date\.now|performance\.now|Math\.random|crypto\.randomUUID|crypto\.getRandomValues)$/;
const surroundings = /^(console|process|globalThis|window|document|localStorage)$/;
const calls = /^(fetch|setTimeout|setInterval|queueMicrotask)$/;

/** Time and chance come in as arguments, so that the same input gives the same bytes anywhere. */
export const pureRule: TidyRule = {
  name: 'domain: no clock, chance or surroundings',
  applies: (path) => path.startsWith('packages/domain/src/') && !path.endsWith('.test.ts'),
  complaints: (file) => {
    const found: { line: number; what: string }[] = [];
    walk(file, (node, line) => {
      const text = (): string => node.getText(node.getSourceFile());
      if (ts.isPropertyAccessExpression(node) && clocks.test(text())) found.push({ line, what: `${text()}: take it as an argument` });
      if (ts.isNewExpression(node) && node.expression.getText() === 'Date' && !node.arguments?.length) {
        found.push({ line, what: 'new Date() reads the clock: take the time as an argument' });
      }
      const isOutside =
        (ts.isPropertyAccessExpression(node) && surroundings.test(node.expression.getText())) ||
        (ts.isCallExpression(node) && calls.test(node.expression.getText()));
      if (isOutside) found.push({ line, what: `${text()}: the domain has no surroundings` });
    });
    return found;
  },
  caught: [
    { path: 'packages/domain/src/a.ts', text: 'const now = Date.now();' },
    { path: 'packages/domain/src/a.ts', text: 'const now = new Date();' },
    { path: 'packages/domain/src/a.ts', text: 'const x = Math.random();' },
    { path: 'packages/domain/src/a.ts', text: "console.log('x');" },
    { path: 'packages/domain/src/a.ts', text: 'if (process.env.X) stop();' },
  ],
  allowed: [{ path: 'packages/domain/src/a.ts', text: 'const at = new Date(instantMs); const process = (x: number) => x; process(1);' }],
};
