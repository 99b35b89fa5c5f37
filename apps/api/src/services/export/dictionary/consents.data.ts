import type { TableWords } from './types.ts';

/** After the tables that they point at. */
export const CONSENTS: readonly TableWords[] = [
  {
    table: 'consent',
    row: 'A consent to photos of a person: who gave it, for whom, to what, by which words, since when and until when',
    columns: {
      person_id: 'For whom (table person)',
      given_by: 'Who gave it: self, guardian or school; no name of these is kept',
      purpose: 'photo: shown to members who sign in; report: shown in reports',
      wording: 'Number of the words that were read; the program keeps them all',
      given_at: 'When it was given, an instant in UTC',
      entered_by: 'Who entered it (table person)',
      withdrawn_at: 'When it was withdrawn, an instant in UTC; empty: it holds',
      withdrawn_by: 'Who withdrew it (table person); empty: nobody is named',
    },
  },
  {
    table: 'photo_person',
    row: 'Somebody who can be seen in a photo, with their consent',
    columns: { photo_id: 'The photo (table photo)' },
  },
  {
    table: 'season_photo',
    row: 'A photo that the report of a season shows',
    columns: {
      season_id: 'The season (table season)',
      photo_id: 'The photo (table photo)',
      alt: 'What it shows, in words',
    },
  },
  {
    table: 'published_season_photo',
    row: 'A photo that a published report shows, or showed',
    columns: {
      published_season_id: 'The report (table published_season)',
      photo_id: 'The photo (table photo); empty: it is gone',
      alt: 'What it shows, in words; empty: it is gone',
    },
  },
];
