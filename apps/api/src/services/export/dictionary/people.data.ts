import type { TableWords } from './types.ts';

export const PEOPLE: readonly TableWords[] = [
  {
    table: 'person',
    row: 'Somebody who takes part',
    columns: {
      name: 'Name as others see it; empty: they were erased',
      email: 'Address for signing in; empty: none',
      is_adult: '1: eighteen or older; 0: younger',
      owner: '1: owns the programme; 0: does not',
      disabled: '1: may not come in any more; 0: may',
      erased_at: 'When they were erased, an instant in UTC; empty: they were not',
      cleared_at: 'When a coordinator cleared them to be with pupils, an instant in UTC; empty: not cleared',
    },
  },
  {
    table: 'membership',
    row: 'What somebody is in the programme',
    columns: { site_id: 'At which site (table site); empty: the whole programme', role: 'pupil, volunteer, site-lead or coordinator' },
  },
  {
    table: 'class',
    row: 'A class or group of pupils',
    columns: {
      name: 'Name of the class',
      code: 'What pupils type before they show their card',
      age_band: 'How old they are [years, from-to]',
    },
  },
  { table: 'class_pupil', row: 'Which class a pupil is in', columns: { class_id: 'The class (table class)' } },
  {
    table: 'person_time',
    row: 'When somebody can come, week by week; nobody without a row is bound to any time',
    columns: { liking: 'glad, can or if-needed' },
  },
  { table: 'person_away', row: 'Days on which somebody is away', columns: {} },
  { table: 'person_skill', row: 'Something that somebody can do', columns: { skill: 'lifting, harvest, keys or guiding' } },
  { table: 'person_site_wish', row: 'A site where somebody would come', columns: {} },
  {
    table: 'person_wish',
    row: 'How much somebody would like to do',
    columns: {
      wish_count: 'Shifts they would like in wish_per; empty: not said',
      wish_per: 'week or month',
      cap_per_week: 'Most shifts in a week; empty: no limit',
      cap_per_day: 'Most shifts in a day; empty: no limit',
      said_at: 'When they said so, an instant in UTC',
    },
  },
  {
    table: 'message_setting',
    row: 'How somebody wants to be told',
    columns: {
      remind_day: '1: reminded a day before; 0: not',
      remind_hours: '1: reminded hours before; 0: not',
      digest: '1: told once a day what there is; 0: not',
      quiet_from: 'Local time from which nothing is sent',
      quiet_to: 'Local time until which nothing is sent',
      mail: '1: by mail too; 0: not',
      address: 'Where mail goes; empty: nowhere',
      confirmed_at: 'When the address was confirmed, an instant in UTC; empty: it was not',
      language: 'Language of mails and calendar; empty: the programme’s',
    },
    leftOut: {
      code_hash: 'secret: what is left of a code that confirms an address',
      code_until: 'belongs to that code',
      code_tries: 'belongs to that code',
    },
  },
  {
    table: 'message',
    row: 'Something that a person was told',
    columns: {
      kind: 'What it is about',
      occasion: 'Which time of several; empty: the only one',
      facts: 'What its words are filled with: ids, days and counts as JSON',
      urgent: '1: also in quiet hours; 0: not',
      good_until: 'Until when it is of use, an instant in UTC; empty: always',
      read_at: 'When it was read, an instant in UTC; empty: not yet',
      over_at: 'Since when it is no longer so, an instant in UTC; empty: it still is',
    },
  },
  {
    table: 'audit',
    row: 'Who did what that others should be able to look up',
    columns: {
      id: 'Number in the order of time',
      at: 'When, an instant in UTC',
      action: 'What was done',
      subject: 'To what, mostly an id',
      detail: 'More about it as JSON',
      request_id: 'Number of the request in the log of the server',
    },
    without: { column: 'action', values: ['programme.exported', 'programme.returned'] },
  },
];
