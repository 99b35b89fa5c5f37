import { one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface MessageSettingRow {
  readonly personId: string;
  readonly remindDay: number;
  readonly remindHours: number;
  readonly digest: number;
  readonly quietFrom: string;
  readonly quietTo: string;
  readonly mail: number;
  readonly address: string | null;
  readonly confirmedAt: string | null;
  readonly codeHash: string | null;
  readonly codeUntil: string | null;
  readonly codeTries: number;
  /** null: never chosen */
  readonly language: string | null;
}

const DEFAULTS: Omit<MessageSettingRow, 'personId'> = {
  remindDay: 1,
  remindHours: 1,
  digest: 1,
  quietFrom: '21:00',
  quietTo: '07:00',
  mail: 0,
  address: null,
  confirmedAt: null,
  codeHash: null,
  codeUntil: null,
  codeTries: 0,
  language: null,
};

/** How somebody wants to be told; whoever never said has the defaults. */
export const messageSetting = (store: Store, personId: string): MessageSettingRow =>
  one<MessageSettingRow>(
    store,
    `SELECT person_id AS personId, remind_day AS remindDay, remind_hours AS remindHours, digest, quiet_from AS quietFrom,
       quiet_to AS quietTo, mail, address, confirmed_at AS confirmedAt, code_hash AS codeHash, code_until AS codeUntil, code_tries AS codeTries, language
     FROM message_setting WHERE person_id = ?`,
    personId,
  ) ?? { personId, ...DEFAULTS };

export function putMessageSetting(store: Store, row: MessageSettingRow): void {
  run(
    store,
    `INSERT INTO message_setting (person_id, remind_day, remind_hours, digest, quiet_from, quiet_to, mail, address, confirmed_at,
       code_hash, code_until, code_tries, language)
     VALUES (@personId, @remindDay, @remindHours, @digest, @quietFrom, @quietTo, @mail, @address, @confirmedAt,
       @codeHash, @codeUntil, @codeTries, @language)
     ON CONFLICT (person_id) DO UPDATE SET remind_day = @remindDay, remind_hours = @remindHours, digest = @digest,
       quiet_from = @quietFrom, quiet_to = @quietTo, mail = @mail, address = @address, confirmed_at = @confirmedAt,
       code_hash = @codeHash, code_until = @codeUntil, code_tries = @codeTries, language = @language`,
    row,
  );
}
