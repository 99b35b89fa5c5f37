import ts from 'typescript';
import { isTest, isTidy, type SourceFile, type TidyRule, walk } from '../rule.ts';

const left = /^(describe|test|it|suite)((\.\w+)*)\.(only|skip|todo|fails|skipIf|runIf)\b/;
const caseCall = /^(test|it)(\.(each|concurrent|sequential|for))*$/;
const evidence = /\b(expect\w*|assert\w*|fc\.assert)\b/;
const alwaysTrue = /^expect\((true|false|1|0|null|undefined|'[^']*')\)/;

/** The call that names a test case: `test(...)`, `test.each(rows)(...)`, `it(...)`. */
function isCase(node: ts.CallExpression): boolean {
  const called = ts.isCallExpression(node.expression) ? node.expression.expression : node.expression;
  return caseCall.test(called.getText()) && node.arguments.length >= 2;
}

const bodyOf = (node: ts.CallExpression): ts.Node | undefined =>
  node.arguments.find((part) => ts.isArrowFunction(part) || ts.isFunctionExpression(part));

/** Functions of the same file that expect something themselves. */
function expectingHelpers(file: SourceFile): Set<string> {
  const names = new Set<string>();
  walk(file, (node) => {
    const isNamed =
      ts.isFunctionDeclaration(node) || (ts.isVariableDeclaration(node) && node.initializer && ts.isFunctionLike(node.initializer));
    if (isNamed && node.name && evidence.test(node.getText())) names.add(node.name.getText());
  });
  return names;
}

/** Whether a test's body expects something, itself or through a helper that it calls. */
const shows = (body: ts.Node, helpers: ReadonlySet<string>): boolean =>
  evidence.test(body.getText()) || [...helpers].some((name) => new RegExp(`\\b${name}\\(`).test(body.getText()));

/** A `return` in the test's own body, under an `if`: the rest of the test then silently does not happen. */
function conditionalReturn(body: ts.Node): boolean {
  let found = false;
  const step = (node: ts.Node, conditional: boolean): void => {
    if (node !== body && ts.isFunctionLike(node)) return;
    if (ts.isReturnStatement(node) && conditional) found = true;
    ts.forEachChild(node, (child) => step(child, conditional || ts.isIfStatement(node)));
  };
  step(body, false);
  return found;
}

/** A test must be able to fail, and must run. */
export const honestTestsRule: TidyRule = {
  name: 'tests: each runs, and each can fail',
  applies: (path) => isTest(path) && !isTidy(path),
  complaints: (file) => {
    const found: { line: number; what: string }[] = [];
    const helpers = expectingHelpers(file);
    walk(file, (node, line) => {
      if (!ts.isCallExpression(node)) return;
      const text = node.getText();
      const chosen = text.match(left)?.[4];
      if (chosen) found.push({ line, what: `.${chosen}: a test that does not run shows nothing` });
      if (alwaysTrue.test(text)) found.push({ line, what: `${text.slice(0, 40)} cannot fail: expect something of what was done` });
      if (!isCase(node)) return;
      const body = bodyOf(node);
      if (body && !shows(body, helpers)) found.push({ line, what: 'no expectation in this test: it can only fail by crashing' });
      if (body && conditionalReturn(body)) found.push({ line, what: 'a return under an if: part of this test may never happen' });
    });
    return found;
  },
  caught: [
    { path: 'tests/api/a.test.ts', text: "test.only('x', () => { expect(a).toBe(1); });" },
    { path: 'tests/api/a.test.ts', text: "describe.skip('x', () => {});" },
    { path: 'tests/api/a.test.ts', text: "test.todo('x');" },
    { path: 'tests/api/a.test.ts', text: "test('x', () => { expect(true).toBe(true); });" },
    { path: 'tests/api/a.test.ts', text: "test('x', () => { run(); });" },
    { path: 'tests/api/a.test.ts', text: "test.each([1])('x', (n) => { run(n); });" },
    { path: 'tests/api/a.test.ts', text: "test('x', () => { if (!db) return; expect(db.n).toBe(1); });" },
  ],
  allowed: [
    { path: 'tests/api/a.test.ts', text: "test('x', () => { expect(f(1)).toBe(2); });" },
    { path: 'tests/api/a.test.ts', text: "test('x', () => { fc.assert(law); });" },
    {
      path: 'tests/api/a.test.ts',
      text: "const rises = (list) => { expect(list[1]).toBeGreaterThan(list[0]); };\ntest('x', () => { rises(f()); });",
    },
    {
      path: 'tests/api/a.test.ts',
      text: "test('x', async () => { const f = (n) => { if (n) return 1; return 2; }; expect(f(0)).toBe(2); });",
    },
  ],
};
