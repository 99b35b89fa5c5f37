import { isScript, isTidy, type TidyRule } from '../rule.ts';

/** The one way to write, migrations (foreign keys are off before they begin), the model's own file that nobody enters anything in, and the reader that cannot write. */
const OWN = ['apps/api/src/db/store.ts', 'apps/api/src/db/migrate.ts', 'apps/api/src/db/run-cache.ts'];
const READ_ONLY: readonly string[] = ['apps/api/src/db/portable/snapshot.ts', 'apps/api/src/db/keep/copy.ts'];

/** F5. What takes several steps goes through `write` of `db/store.ts`: a transaction that is deferred gets SQLITE_BUSY when it comes to write. */
export const transactionsRule: TidyRule = {
  name: 'F5: no transaction that is deferred',
  applies: (path) => isScript(path) && path.startsWith('apps/api/src/') && !path.endsWith('.test.ts') && !isTidy(path),
  complaints: ({ path, text }) =>
    text.split('\n').flatMap((words, at) => {
      const isBegun = /\bBEGIN(?! (IMMEDIATE|EXCLUSIVE)\b)['"`;]/.test(words) && !READ_ONLY.includes(path);
      const isOwn = /sqlite\.transaction\(|\bdb\.transaction\(/.test(words) && !OWN.includes(path);
      return isBegun || isOwn ? [{ line: at + 1, what: 'a transaction of its own: use write() of db/store.ts, which is IMMEDIATE' }] : [];
    }),
  caught: [
    { path: 'apps/api/src/services/a.ts', text: 'store.sqlite.transaction(work)();' },
    { path: 'apps/api/src/db/a.ts', text: "sqlite.exec('BEGIN');" },
    { path: 'apps/api/src/db/a.ts', text: "sqlite.exec('BEGIN; DELETE FROM bin');" },
  ],
  allowed: [
    { path: 'apps/api/src/services/a.ts', text: 'write(store, work);' },
    { path: 'apps/api/src/start/a.ts', text: "sqlite.exec('BEGIN EXCLUSIVE');" },
    { path: 'apps/api/src/db/a.ts', text: "sqlite.exec('BEGIN IMMEDIATE');" },
    { path: 'apps/api/src/services/calendar/a.ts', text: "whole.indexOf('BEGIN:VEVENT')" },
  ],
};
