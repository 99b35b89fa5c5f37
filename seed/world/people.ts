/** Thirty invented people. */
import type { SiteKey } from './sites.ts';

export interface PersonStory {
  readonly name: string;
  readonly role: 'coordinator' | 'site-lead' | 'volunteer' | 'pupil';
  /** Nothing said: every site. */
  readonly sites: readonly SiteKey[];
}

export const OWNER = 'Ottilie Brackenbury';

const at =
  (role: PersonStory['role'], ...sites: SiteKey[]) =>
  (name: string): PersonStory => ({ name, role, sites });

export const PEOPLE: readonly PersonStory[] = [
  { name: 'Rafe Tillingham', role: 'coordinator', sites: [] },
  ...['Nuala Pennifold'].map(at('site-lead', 'garden')),
  ...['Corwin Ashdale'].map(at('site-lead', 'school')),
  ...['Beatrix Lovage'].map(at('site-lead', 'plots')),
  ...[
    'Marlow Sedgwick',
    'Inés Caradoc',
    'Tobias Fenwright',
    'Hesper Dunmore',
    'Kofi Wetherby',
    'Lise Arkwell',
    'Jonty Marrable',
    'Saoirse Vane',
  ].map(at('volunteer', 'garden')),
  ...['Aveline Stroud', 'Dev Hathersage', 'Philippa Croome', 'Emrys Tarn', 'Yara Lindqvale'].map(at('volunteer', 'school')),
  ...['Gwillam Oxley', 'Petra Sandrock', 'Augustin Bellwether', 'Thora Minchin', 'Silvan Pryce', 'Odile Garrick'].map(
    at('volunteer', 'plots'),
  ),
  ...['Mina T.', 'Arlo P.', 'Zuri K.', 'Finn O.', 'Elsie W.', 'Idris M.'].map(at('pupil', 'school')),
];
