import { readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import ts from 'typescript';
import { filesUnder, fromRoot, root } from '../../scripts/lib.mjs';

/** One file of ours as the rules see it. */
export interface SourceFile {
  /** From the root, with forward slashes. */
  readonly path: string;
  readonly text: string;
}

export interface Complaint {
  /** First line is 1. */
  readonly line: number;
  /** What is wrong and what to do instead. */
  readonly what: string;
}

/** A convention as a check. `caught` and `allowed` prove that it can fail and that it can be met. */
export interface TidyRule {
  readonly name: string;
  readonly applies: (path: string) => boolean;
  readonly complaints: (file: SourceFile) => readonly Complaint[];
  readonly caught: readonly SourceFile[];
  readonly allowed: readonly SourceFile[];
}

const ours = ['packages', 'apps', 'seed', 'tests', 'bench', 'scripts', 'migrations', 'shared', 'docs', '.ci'];
const oursAtRoot = [
  'README.md',
  'DEVELOPERS.md',
  'CHANGELOG.md',
  'package.json',
  'package-lock.json',
  'tsconfig.json',
  'biome.json',
  'vitest.config.ts',
];
const binary = new Set(['.png', '.jpg', '.webp', '.woff2', '.ico', '.gz', '.br', '.db', '.pdf']);

/** Every text file of the repository, read once. */
export const allFiles: readonly SourceFile[] = filesUnder([...ours, ...oursAtRoot])
  .filter((file) => !binary.has(extname(file)))
  .map((file) => ({ path: fromRoot(file), text: readFileSync(file, 'utf8') }));

export const readRoot = (path: string): string => readFileSync(join(root, path), 'utf8');

export const isGenerated = (path: string): boolean => /\.gen\.\w+$|^docs\/reference\/|^migrations\/meta\/|^package-lock\.json$/.test(path);
export const isScript = (path: string): boolean => /\.(ts|mjs|js|svelte)$/.test(path) && !isGenerated(path);
export const isTest = (path: string): boolean => /\.(test|proof)\.ts$/.test(path);
/** The tidy rules hold bad samples on purpose. */
export const isTidy = (path: string): boolean => path.startsWith('tests/tidy/');

export const lineAt = (text: string, offset: number): number => text.slice(0, offset).split('\n').length;

/** One complaint per match of a global pattern. */
export function matches(file: SourceFile, pattern: RegExp, what: (found: string) => string): Complaint[] {
  return [...file.text.matchAll(pattern)].map((match) => ({ line: lineAt(file.text, match.index), what: what(match[0]) }));
}

const scriptTag = /<script\b[^>]*>([\s\S]*?)<\/script>/g;

/** The script part of a file, with everything else blanked so that line numbers stay right. */
function scriptOf({ path, text }: SourceFile): string {
  if (!path.endsWith('.svelte')) return text;
  let kept = text.replace(/[^\n]/g, ' ');
  for (const match of text.matchAll(scriptTag)) {
    const code = match[1] ?? '';
    const from = match.index + match[0].indexOf(code, match[0].indexOf('>'));
    kept = kept.slice(0, from) + code + kept.slice(from + code.length);
  }
  return kept;
}

const trees = new Map<SourceFile, ts.SourceFile>();

/** The syntax tree of a file's script. */
export function treeOf(file: SourceFile): ts.SourceFile {
  const known = trees.get(file);
  if (known) return known;
  const tree = ts.createSourceFile(file.path, scriptOf(file), ts.ScriptTarget.ES2023, true, ts.ScriptKind.TS);
  trees.set(file, tree);
  return tree;
}

/** Calls `visit` on every node of a file's script, outermost first. */
export function walk(file: SourceFile, visit: (node: ts.Node, line: number) => void): void {
  const tree = treeOf(file);
  const step = (node: ts.Node): void => {
    visit(node, tree.getLineAndCharacterOfPosition(node.getStart(tree)).line + 1);
    ts.forEachChild(node, step);
  };
  step(tree);
}
