/** Every table of the store: what it holds in words, or why it stays behind. A test compares this with the store itself (criteria G5). */
import { BROUGHT } from './brought.data.ts';
import { COMMON } from './common.data.ts';
import { CONSENTS } from './consents.data.ts';
import { ENTRIES } from './entries.data.ts';
import { PEOPLE } from './people.data.ts';
import { PLACES } from './places.data.ts';
import type { TableWords } from './types.ts';
import { WORK } from './work.data.ts';

export const EXPORTED: readonly TableWords[] = [...PLACES, ...PEOPLE, ...WORK, ...ENTRIES, ...BROUGHT, ...CONSENTS];

/** Tables that stay behind whole. */
export const LEFT_OUT: Readonly<Record<string, string>> = {
  credential: 'secret: passwords, second steps and picture cards, as far as they are kept at all',
  sign_in_session: 'secret: who is signed in on which device',
  sign_in_try: 'tries to sign in on this machine',
  invite: 'secret: ways in that somebody was given',
  device_code: 'secret: codes that bring a device in',
  link: 'secret: addresses that show something without signing in',
  mail: 'mail on its way from this machine, with the addresses in it',
  applied_client_id: 'what phones sent to this machine, kept so that nothing counts twice',
  applied_migration: 'how this machine came to its tables',
  photo_gone: 'numbers of photos that were taken off here, so that no backup of this machine shows them again',
  change: 'what open pages of this machine were told',
};

/** What a column holds; undefined where nobody has said it yet. */
export const columnWords = (table: TableWords, column: string): string | undefined => table.columns[column] ?? COMMON[column];
