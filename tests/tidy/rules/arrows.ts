import { posix } from 'node:path';
import ts from 'typescript';
import { type Complaint, isScript, isTest, isTidy, type SourceFile, type TidyRule, walk } from '../rule.ts';

/** Where a file or an import belongs. The first that fits wins. */
const places: readonly (readonly [name: string, pattern: RegExp])[] = [
  ['domain', /^packages\/domain\/src\//],
  ['domain checks', /^packages\/domain\/published\//],
  ['contract', /^packages\/contract\//],
  // What a store says when it will not open belongs with the store, wherever else it is used.
  ['api/db', /^apps\/api\/src\/(db\/|start-refusal\.ts$)/],
  // Where the parts are put together: the server makes the demonstration, the commands may make it again.
  ['api/start', /^apps\/api\/src\/(server\.ts$|cli\/)/],
  ['api/routes', /^apps\/api\/src\/routes\//],
  ['api', /^apps\/api\//],
  ['web/lib/shared', /^apps\/web\/src\/lib\/shared\//],
  ['web', /^apps\/web\//],
  ['tests', /^tests\//],
  ['seed', /^seed\//],
  ['bench', /^bench\//],
  ['scripts', /^scripts\//],
];

const ownPackages: Readonly<Record<string, string>> = {
  '@middenry/domain': 'domain',
  '@middenry/contract': 'contract',
  '@middenry/api': 'api',
  '@middenry/web': 'web',
};

const database = /^(better-sqlite3|drizzle-orm|drizzle-kit)(\/|$)/;
const anything = () => true;

interface Arrow {
  /** Our own places that may be imported, beside the place itself. */
  readonly own: readonly string[];
  /** Packages from npm, and `node:` modules. */
  readonly npm: (name: string) => boolean;
  readonly advice: string;
}

const everywhere = places.map(([name]) => name);

const arrows: Readonly<Record<string, Arrow>> = {
  domain: {
    own: [],
    npm: () => false,
    advice: 'the domain depends on nothing: take it as an argument, or move the file to apps/api/src/services',
  },
  'domain checks': {
    own: ['domain'],
    npm: (name) => name.startsWith('node:'),
    advice: 'published checks use only the domain: move what crosses packages to tests/',
  },
  contract: {
    own: ['domain'],
    npm: (name) => /^zod(\/|$)/.test(name),
    advice: 'the contract knows only zod and the domain: move the file to apps/api/src',
  },
  'api/db': {
    own: ['domain'],
    npm: (name) => !/^(fastify|@fastify\/|zod)/.test(name),
    advice: 'rows are not answers: turn rows into answers in apps/api/src/services, not in db/',
  },
  'api/routes': {
    own: ['domain', 'contract', 'api'],
    npm: (name) => !database.test(name),
    advice: 'a route never opens the database: put that in apps/api/src/services and call it from here',
  },
  api: {
    own: ['domain', 'contract', 'api/db', 'api/routes', 'api/start'],
    npm: anything,
    advice: 'the api imports domain and contract only',
  },
  'api/start': {
    own: ['domain', 'contract', 'api', 'api/db', 'seed'],
    npm: anything,
    advice: 'the start of the program puts the parts together and imports no other',
  },
  'web/lib/shared': {
    own: [],
    npm: (name) => /^(svelte|\$app)(\/|$)/.test(name),
    advice: 'lib/shared imports only lib/shared: move the file to lib/<concept>, or pass the thing in',
  },
  web: {
    own: ['domain', 'contract', 'web/lib/shared'],
    npm: (name) => !database.test(name) && !name.startsWith('fastify'),
    advice: 'pages reach the api over /api only: move shared shapes to packages/contract',
  },
  tests: { own: everywhere, npm: anything, advice: '' },
  seed: {
    own: everywhere.filter((place) => place !== 'tests' && place !== 'bench'),
    npm: anything,
    advice: 'move what both need to seed/',
  },
  bench: { own: everywhere, npm: anything, advice: '' },
  // Its .mjs files run before anything is built and so cannot import ours; the .ts ones write the reference from the registries.
  scripts: { own: ['domain', 'contract', 'api'], npm: anything, advice: 'scripts read registries only: put the rest where it belongs' },
};

const placeOf = (path: string): string | undefined => places.find(([, pattern]) => pattern.test(path))?.[0];

export function importsOf(file: SourceFile): { name: string; line: number }[] {
  const found: { name: string; line: number }[] = [];
  walk(file, (node, line) => {
    const from =
      ts.isImportDeclaration(node) || ts.isExportDeclaration(node)
        ? node.moduleSpecifier
        : ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword
          ? node.arguments[0]
          : ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)
            ? node.argument.literal
            : undefined;
    if (from && ts.isStringLiteralLike(from)) found.push({ name: from.text, line });
  });
  return found;
}

/** The path that an import of ours leads to, or undefined for npm packages and `node:` modules. */
function targetOf(file: SourceFile, name: string): string | undefined {
  if (name.startsWith('.')) return posix.join(posix.dirname(file.path), name);
  if (name === '$lib' || name.startsWith('$lib/')) return posix.join('apps/web/src/lib', name.slice('$lib'.length));
  return undefined;
}

function complaintAbout(file: SourceFile, from: string, name: string): string | undefined {
  const arrow = arrows[from];
  if (!arrow) return undefined;
  const path = targetOf(file, name);
  const to = path ? placeOf(path) : ownPackages[name.split('/').slice(0, 2).join('/')];
  if (path?.startsWith('apps/web/build') && file.path !== 'apps/api/src/server.ts')
    return `only server.ts mounts the built pages, not ${file.path}`;
  if (to === undefined) {
    if (path) return undefined;
    return isTest(file.path) || arrow.npm(name) ? undefined : `${from} may not import ${name}: ${arrow.advice}`;
  }
  const samePackage = to === from || (from.startsWith('api') && to.startsWith('api')) || (from.startsWith('web') && to.startsWith('web'));
  const allowed = to === from || arrow.own.includes(to) || (isTest(file.path) && samePackage);
  if (!allowed) return `${from} may not import ${to} (${name}): ${arrow.advice}`;
  if (path && !samePackage && to !== 'seed' && (from.startsWith('api') || from.startsWith('web') || from === 'contract')) {
    return `reach ${to} by its package name (@middenry/...), not by the path ${name}`;
  }
  return undefined;
}

/** The arrows of the house, read from the imports. */
export const arrowsRule: TidyRule = {
  name: 'arrows: who may import whom',
  applies: (path) => isScript(path) && !isTidy(path),
  complaints: (file) => {
    const from = placeOf(file.path);
    if (!from) return [];
    return importsOf(file).flatMap(({ name, line }): Complaint[] => {
      const what = complaintAbout(file, from, name);
      return what ? [{ line, what }] : [];
    });
  },
  caught: [
    { path: 'packages/domain/src/bin/a.ts', text: "import { readFileSync } from 'node:fs';" },
    { path: 'packages/domain/src/bin/a.ts', text: "import * as z from 'zod';" },
    { path: 'packages/contract/src/a.ts', text: "import Fastify from 'fastify';" },
    { path: 'apps/api/src/db/a.ts', text: "import type { Bin } from '@middenry/contract';" },
    { path: 'apps/api/src/routes/bins/list.ts', text: "import { open } from '../../db/open.ts';" },
    { path: 'apps/api/src/services/a.ts', text: "export { x } from '../../../../seed/main.ts';" },
    { path: 'apps/api/src/services/a.ts', text: "import { x } from '../../../../packages/domain/src/index.ts';" },
    { path: 'apps/web/src/lib/shared/a.ts', text: "import { words } from '$lib/messages/index.ts';" },
    { path: 'apps/web/src/routes/+page.svelte', text: '<p></p>\n<script lang="ts">\nimport { db } from \'@middenry/api\';\n</script>' },
    { path: 'apps/api/src/services/a.ts', text: "const cast = await import('../../../../tests/cast.ts');" },
  ],
  allowed: [
    { path: 'packages/domain/src/bin/a.test.ts', text: "import { test } from 'vitest';\nimport { b } from './b.ts';" },
    {
      path: 'apps/api/src/routes/bins/list.ts',
      text: "import { bins } from '../../services/bins.ts';\nimport { ROUTES } from '@middenry/contract';",
    },
    { path: 'apps/web/src/lib/board/a.ts', text: "import type { Bin } from '@middenry/contract';\nimport { b } from '$lib/shared/b.ts';" },
  ],
};
