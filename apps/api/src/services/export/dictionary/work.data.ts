import type { TableWords } from './types.ts';

export const WORK: readonly TableWords[] = [
  { table: 'shift_series', row: 'Shifts that were made together', columns: {} },
  {
    table: 'shift',
    row: 'A time at which people come to a site',
    columns: {
      series_id: 'The series it belongs to (table shift_series); empty: none',
      title: 'What it is called',
      local_time: 'When it begins, local time at the site',
      minutes: 'How long it takes [minutes]',
      places: 'How many adults it takes',
      cancelled_at: 'When it was called off, an instant in UTC; empty: it was not',
      pupil_places: 'How many pupils it takes',
      least_adults: 'How many adults must be there for pupils to come',
      least_adults_reason: 'Why fewer adults are enough, in words',
    },
  },
  { table: 'shift_bin', row: 'A bin that a shift sees to', columns: {} },
  { table: 'shift_duty', row: 'A duty of a shift at a bin', columns: { kind: 'The duty, such as feed or check' } },
  {
    table: 'shift_duty_result',
    row: 'What became of a duty on a shift',
    columns: {
      kind: 'The duty, such as feed or check',
      result: 'done, partly or missed',
      said_at: 'When that was said, an instant in UTC',
    },
  },
  { table: 'shift_need', row: 'How many people with a skill a shift asks for', columns: { skill: 'The skill', places: 'How many' } },
  {
    table: 'dropped_duty',
    row: 'A duty that somebody put aside as a proposal',
    columns: {
      kind: 'The duty, such as feed or check',
      due_on: 'Day on which it was due',
      urgency: 'How pressing it was, a rank without unit',
      dropped_at: 'When it was put aside, an instant in UTC',
    },
  },
  {
    table: 'sign_up',
    row: 'Somebody who took a place on a shift',
    columns: {
      taken_at: 'When, an instant in UTC',
      given_back_at: 'When they gave it back, an instant in UTC; empty: they kept it',
      attended: '1: they came; 0: they did not; empty: not said',
      minutes: 'How long they were there [minutes]; empty: as long as the shift',
    },
  },
  {
    table: 'swap',
    row: 'A place that somebody would hand over',
    columns: {
      sign_up_id: 'The place (table sign_up)',
      from_person_id: 'Who would hand it over (table person)',
      to_person_id: 'To whom (table person); empty: to anybody',
      in_return: 'Shifts they would take in return, a JSON list of ids',
      ended_how: 'accepted, withdrawn, declined or gone; empty: still open',
      accepted_by: 'Who took it (table person); empty: nobody',
    },
  },
  {
    table: 'waiting',
    row: 'Somebody who waits for a place on a full shift',
    columns: {
      seq: 'Place in the line; lower comes first',
      joined_at: 'When they joined, an instant in UTC',
      offered_at: 'When a place was offered, an instant in UTC; empty: none was',
      offer_until: 'Until when it is kept, an instant in UTC; empty: none is',
      ended_how: 'took, left, lapsed or shift; empty: still waiting',
    },
  },
  {
    table: 'shift_group',
    row: 'Pupils of a class who come to a shift',
    columns: {
      class_id: 'The class (table class)',
      pupils: 'How many',
      checked_in_at: 'When they were seen to have come, an instant in UTC; empty: not said',
    },
  },
  { table: 'shift_group_pupil', row: 'Which pupil comes with a group', columns: { group_id: 'The group (table shift_group)' } },
  {
    table: 'sign_up_season',
    row: 'A term whose places are shared out together',
    columns: {
      name: 'Name of the term',
      way: 'first-come or draw',
      opens_at: 'From when places can be taken, an instant in UTC',
      cap: 'Most places of one person in the first 48 hours',
      seed: 'What the draw starts from',
      drawn_at: 'When it was drawn, an instant in UTC; empty: not yet',
      draw: 'What was drawn from and what came out, as JSON; empty: nothing yet',
    },
  },
  {
    table: 'wish_list',
    row: 'How many places of a term somebody wants',
    columns: {
      season_id: 'The term (table sign_up_season)',
      most: 'Most places',
      said_at: 'When they said so, an instant in UTC',
    },
  },
  {
    table: 'wish',
    row: 'A shift of a term that somebody wants',
    columns: { season_id: 'The term (table sign_up_season)', rank: 'How much they want it, 1 is most' },
  },
  {
    table: 'rota_run',
    row: 'A search for people to fill gaps',
    columns: {
      site_ids: 'At which sites, a JSON list of ids; none: all',
      seconds: 'How long it might take [seconds]',
      status: 'working, optimal, best-found, infeasible or stopped',
      report: 'What came of it, as JSON; empty: nothing yet',
    },
  },
  {
    table: 'rota_proposal',
    row: 'Somebody who was proposed for a place',
    columns: {
      run_id: 'The search (table rota_run)',
      skill: 'The skill they bring; empty: none is asked for',
      reason: 'Why this person, as JSON or words',
      state: 'proposed, replaced, invited, accepted, declined or withdrawn',
      invited_at: 'When they were asked, an instant in UTC; empty: not',
      good_until: 'Until when they may answer, an instant in UTC; empty: they were not asked',
      answered_at: 'When they answered, an instant in UTC; empty: not',
    },
  },
  {
    table: 'calendar_stamp',
    row: 'What calendars were last told of a shift, so that they take what comes next',
    columns: {
      subject: 'Which shift or feed',
      content_hash: 'Checksum of what was told',
      sequence: 'How many times it changed',
      changed_at: 'When it last changed, an instant in UTC',
    },
  },
];
