/** Takes somebody out of the store and leaves what they noted (criteria C27). */
import { all, run } from '../rows.ts';
import type { Store } from '../store.ts';

/** Rows that say something of the person alone; availability and proposals follow by triggers of the store. */
const ABOUT_THEM = [
  'DELETE FROM class_pupil WHERE person_id = ?',
  'DELETE FROM shift_group_pupil WHERE person_id = ?',
  'DELETE FROM wish_list WHERE person_id = ?',
  'DELETE FROM credential WHERE person_id = ?',
  'DELETE FROM membership WHERE person_id = ?',
  'DELETE FROM device_code WHERE person_id = ?',
  'DELETE FROM mail WHERE person_id = ?',
  'DELETE FROM message WHERE person_id = ?',
  'DELETE FROM message_setting WHERE person_id = ?',
  'DELETE FROM link WHERE person_id = ?',
  'DELETE FROM invite WHERE person_id = ?',
  'DELETE FROM invite WHERE used_by = ?',
] as const;

export function erasePerson(store: Store, id: string, at: string): void {
  for (const text of ABOUT_THEM) store.sql(text).run(id);
  // Kept without its device's name until it would have gone anyway: so their phone can be told why nothing is taken any more.
  store.sql("UPDATE sign_in_session SET ended_at = ifnull(ended_at, min(?, expires_at)), label = '' WHERE person_id = ?").run(at, id);
  store
    .sql('UPDATE person SET name = NULL, email = NULL, disabled = 1, owner = 0, cleared_at = NULL, erased_at = ? WHERE id = ?')
    .run(at, id);
}

/** Where their name was typed as that of whoever got castings. */
export const forgetReceiver = (store: Store, name: string): void =>
  void run(store, 'UPDATE castings_move SET receiver = NULL WHERE receiver = ? COLLATE NOCASE', name);

export interface SheetWords {
  readonly id: string;
  /** JSON. */
  readonly cells: string;
  readonly answers: string;
  readonly refused: string;
}

export const sheetWords = (store: Store): SheetWords[] => all<SheetWords>(store, 'SELECT id, cells, answers, refused FROM sheet_import');

export const putSheetWords = (store: Store, words: SheetWords): void =>
  void run(store, 'UPDATE sheet_import SET cells = @cells, answers = @answers, refused = @refused WHERE id = @id', words);
