import ts from 'typescript';
import { type Complaint, isGenerated, isScript, type SourceFile, type TidyRule, walk } from '../rule.ts';

const mostFileLines = 300;
const mostComponentLines = 250;
const mostFunctionLines = 70;

/** Words and data are long by nature; so is a story told as one list. */
const isData = (path: string): boolean => /\/messages\/|^seed\/world\/|^shared\/|^migrations\/|\.data\.ts$/.test(path);

const lines = (count: number): string => Array.from({ length: count }, (_, index) => `const a${index} = ${index};`).join('\n');

function fileComplaints(file: SourceFile): Complaint[] {
  const count = file.text.trimEnd().split('\n').length;
  const most = file.path.endsWith('.svelte') ? mostComponentLines : mostFileLines;
  return count > most ? [{ line: most, what: `${count} lines, at most ${most}: split it by what it does` }] : [];
}

/** Lines of a function without those of the functions inside it: a list of small functions is a heading, not a long function. */
function ownLines(node: ts.Node): number {
  const tree = node.getSourceFile();
  const spanOf = (part: ts.Node): number =>
    tree.getLineAndCharacterOfPosition(part.getEnd()).line - tree.getLineAndCharacterOfPosition(part.getStart(tree)).line;
  let inner = 0;
  const step = (part: ts.Node): void => {
    if (part !== node && ts.isFunctionLike(part)) inner += spanOf(part);
    else ts.forEachChild(part, step);
  };
  step(node);
  return spanOf(node) + 1 - inner;
}

function functionComplaints(file: SourceFile): Complaint[] {
  const found: Complaint[] = [];
  walk(file, (node, line) => {
    if (!ts.isFunctionLike(node) || !('body' in node) || !node.body) return;
    const count = ownLines(node);
    const name = node.name?.getText(node.getSourceFile()) ?? 'a function without a name';
    if (count > mostFunctionLines) {
      found.push({ line, what: `${name} has ${count} lines, at most ${mostFunctionLines}: give a part of it a name of its own` });
    }
  });
  return found;
}

export const sizeRule: TidyRule = {
  name: 'size: files and functions that fit in a head',
  applies: (path) => isScript(path) && !isGenerated(path) && !isData(path),
  complaints: (file) => [...fileComplaints(file), ...functionComplaints(file)],
  caught: [
    { path: 'apps/api/src/a.ts', text: lines(301) },
    { path: 'apps/web/src/lib/A.svelte', text: lines(251) },
    { path: 'apps/api/src/a.ts', text: `export function long() {\n${lines(70)}\n}` },
    { path: 'apps/api/src/a.ts', text: `export const long = () => {\n${lines(70)}\n};` },
  ],
  allowed: [
    { path: 'apps/api/src/a.ts', text: lines(300) },
    { path: 'apps/api/src/a.ts', text: `export function fits() {\n${lines(68)}\n}` },
    { path: 'apps/web/src/lib/messages/en.ts', text: lines(400) },
    { path: 'apps/api/src/a.ts', text: `export function heading() {\n${`const f = () => {\n${lines(30)}\n};\n`.repeat(3)}}` },
  ],
};
