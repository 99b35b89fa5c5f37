import { posix } from 'node:path';
import { type Complaint, isScript, type TidyRule } from '../rule.ts';

const kebab = /^[a-z0-9]+(-[a-z0-9]+)*$/;
const pascal = /^[A-Z][A-Za-z0-9]*$/;
/** Names that the page framework gives its files and folders: `+page`, `[id]`, `(board)`, `hooks.server`. */
const framework = /^\+[a-z]+$|^\(?[a-z0-9-]+\)?$|^\[{1,2}(\.\.\.)?[a-z]+(=[a-z]+)?\]{1,2}$/;
const vague = /^(utils?|helpers?|misc|common-utils?|stuff-utils?)$/;

function complaintsOf(path: string): Complaint[] {
  const folders = posix.dirname(path).split('/');
  const stem = (posix.basename(path).split('.')[0] ?? '').replace(/^\./, '');
  const found: string[] = [];
  for (const part of [...folders, stem]) {
    if (vague.test(part)) found.push(`"${part}" says nothing: name it after what it holds`);
  }
  for (const folder of folders) {
    if (!kebab.test(folder) && !framework.test(folder) && folder !== '.') found.push(`folder "${folder}" is not kebab-case`);
  }
  if (path.endsWith('.svelte') && !stem.startsWith('+')) {
    if (!pascal.test(stem)) found.push(`component "${stem}" is not PascalCase`);
  } else if (!kebab.test(stem) && !framework.test(stem)) found.push(`file "${stem}" is not kebab-case, after its main export`);
  return found.map((what) => ({ line: 1, what }));
}

export const namesRule: TidyRule = {
  name: 'names: kebab-case files, PascalCase components, nothing vague',
  applies: isScript,
  complaints: ({ path }) => complaintsOf(path),
  caught: [
    { path: 'apps/api/src/utils/a.ts', text: '' },
    { path: 'apps/web/src/lib/helpers.ts', text: '' },
    { path: 'apps/api/src/feedAdvice.ts', text: '' },
    { path: 'apps/api/src/feed_advice.ts', text: '' },
    { path: 'apps/web/src/lib/board/bin-tile.svelte', text: '' },
    { path: 'apps/web/src/lib/Board/BinTile.svelte', text: '' },
  ],
  allowed: [
    { path: 'apps/api/src/feed-advice.ts', text: '' },
    { path: 'apps/web/src/lib/board/BinTile.svelte', text: '' },
    { path: 'apps/web/src/routes/(board)/bins/[id]/+page.server.ts', text: '' },
    { path: 'apps/web/src/hooks.server.ts', text: '' },
    { path: 'packages/domain/src/materials/catalogue.gen.ts', text: '' },
  ],
};
