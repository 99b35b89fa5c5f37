/** A name in spreadsheets that were brought in: in cells that wait, in rows that were refused, and in what was answered about names. */
import { plainText } from '@middenry/domain';
import { all, run } from '../rows.ts';
import type { Store } from '../store.ts';

interface SheetWords {
  readonly id: string;
  /** JSON. */
  readonly cells: string;
  readonly answers: string;
  readonly refused: string;
}

export function forgetInSheets(store: Store, { id, name }: { readonly id: string; readonly name: string }): void {
  const wanted = plainText(name);
  if (wanted === '') return;
  const without = (json: string): string => JSON.stringify(JSON.parse(json), (_key, value) => (isName(value) ? '' : value));
  const isName = (value: unknown): boolean => typeof value === 'string' && plainText(value) === wanted;
  for (const sheet of all<SheetWords>(store, 'SELECT id, cells, answers, refused FROM sheet_import')) {
    const answers = JSON.parse(sheet.answers) as { names?: { person?: Record<string, string> } };
    const known = Object.entries(answers.names?.person ?? {}).filter(([word, whose]) => whose !== id && plainText(word) !== wanted);
    const names = answers.names === undefined ? {} : { names: { ...answers.names, person: Object.fromEntries(known) } };
    run(store, 'UPDATE sheet_import SET cells = @cells, answers = @answers, refused = @refused WHERE id = @id', {
      id: sheet.id,
      cells: without(sheet.cells),
      refused: without(sheet.refused),
      answers: JSON.stringify({ ...answers, ...names }),
    });
  }
}
