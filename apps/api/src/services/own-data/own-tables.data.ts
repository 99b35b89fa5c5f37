/** What is somebody's own in the store. A test compares this with the store itself: every column that can name a person is here or in `NOT_OWN`. */
import type { OwnWanted } from '../../db/portable/own-rows.ts';

export interface OwnTable extends Omit<OwnWanted, 'columns'> {
  /** The only columns that go; left out: all that an export of the programme holds, but `leftOut`. */
  readonly columns?: readonly string[];
  /** Columns in which other people may stand. */
  readonly leftOut?: readonly string[];
  /** What a row is, where no export of the programme has the table. */
  readonly row?: string;
}

const PERSON = ['person_id'];
/** Parts of an entry, each in a table of its own. */
const ENTRY_PARTS = [
  ...['feeding', 'feeding_item', 'bin_check', 'check_leftover', 'check_visitor', 'harvest', 'harvest_bucket', 'harvest_expected'],
  ...['care', 'worm_move', 'entry_revision'],
];
const ofEntries = { column: 'entry_id', table: 'entry', key: 'id', mine: 'person_id' };

export const OWN_TABLES: readonly OwnTable[] = [
  { table: 'person', mine: ['id'] },
  { table: 'membership', mine: PERSON },
  {
    table: 'class',
    columns: ['id', 'name', 'age_band'],
    through: { column: 'id', table: 'class_pupil', key: 'class_id', mine: 'person_id' },
  },
  { table: 'class_pupil', mine: PERSON },
  { table: 'person_time', mine: PERSON },
  { table: 'person_away', mine: PERSON },
  { table: 'person_skill', mine: PERSON },
  { table: 'person_site_wish', mine: PERSON },
  { table: 'person_wish', mine: PERSON },
  { table: 'message_setting', mine: PERSON },
  { table: 'message', mine: PERSON, leftOut: ['facts'] },
  {
    table: 'mail',
    mine: PERSON,
    columns: ['id', 'kind', 'address', 'state', 'made_at', 'done_at'],
    row: 'A mail that went, or was to go, to this person',
  },
  {
    table: 'sign_in_session',
    mine: PERSON,
    columns: ['id', 'kind', 'label', 'created_at', 'last_seen_at', 'expires_at', 'ended_at'],
    row: 'A device that was signed in, as it called itself',
  },
  {
    table: 'credential',
    mine: PERSON,
    columns: ['id', 'kind', 'label', 'used_at', 'created_at'],
    row: 'A way to sign in; the secret itself is known to nobody',
  },
  { table: 'link', mine: PERSON, columns: ['id', 'kind', 'label', 'created_at', 'revoked_at'], row: 'An address of a calendar' },
  {
    table: 'invite',
    mine: ['person_id', 'used_by'],
    columns: ['id', 'name', 'role', 'created_at', 'used_at'],
    row: 'An invite they came by',
  },
  { table: 'sign_up', mine: PERSON },
  { table: 'waiting', mine: PERSON },
  { table: 'swap', mine: ['from_person_id', 'to_person_id', 'accepted_by'] },
  { table: 'rota_proposal', mine: PERSON },
  { table: 'wish_list', mine: PERSON },
  { table: 'wish', mine: PERSON },
  { table: 'shift_group_pupil', mine: PERSON },
  {
    table: 'shift',
    columns: ['id', 'site_id', 'title', 'local_date', 'local_time', 'time_zone', 'minutes', 'cancelled_at'],
    through: { column: 'id', table: 'sign_up', key: 'shift_id', mine: 'person_id' },
  },
  { table: 'entry', mine: PERSON },
  ...ENTRY_PARTS.map((table) => ({ table, through: ofEntries })),
  // Others may be in the rest.
  { table: 'photo', mine: PERSON, only: { column: 'people', value: 'none' } },
  { table: 'photo_person', mine: PERSON },
  { table: 'consent', mine: PERSON },
  { table: 'flag_note', mine: PERSON },
  { table: 'shift_duty_result', mine: PERSON },
  { table: 'dropped_duty', mine: PERSON },
  { table: 'container_weighing', mine: PERSON },
  { table: 'material_figure', mine: PERSON },
  { table: 'bedding_move', mine: PERSON },
  { table: 'castings_move', mine: PERSON, leftOut: ['receiver'] },
  { table: 'sheet_import', mine: PERSON, columns: ['id', 'kind', 'file_name', 'made_at', 'done_at', 'undone_at'] },
  { table: 'audit', mine: ['person_id', 'subject'], columns: ['id', 'at', 'action'] },
  { table: 'site', columns: ['id', 'name'] },
  { table: 'bin', columns: ['id', 'site_id', 'code', 'name'] },
];

const WORK = 'work for the programme, told in the audit';
/** Columns that can name a person and bring no row of their own along, each with the reason. */
export const NOT_OWN: Readonly<Record<string, string>> = {
  'applied_client_id.person_id': 'ids of what their phone sent; what it sent is in the tables',
  'castings_move.undone_by': WORK,
  'consent.entered_by': WORK,
  'consent.withdrawn_by': WORK,
  'device_code.created_by': 'gone within a day',
  'device_code.person_id': 'gone within a day',
  'entry.undone_by': WORK,
  'entry_revision.replaced_by': WORK,
  'intake_plan.made_by': WORK,
  'invite.created_by': 'an invite of somebody else',
  'link.created_by': WORK,
  'rota_run.made_by': WORK,
  'shift_group.made_by': WORK,
};
