export const ENTRY_KINDS = ['feeding', 'check', 'harvest', 'care', 'note', 'worms'] as const;
export type EntryKind = (typeof ENTRY_KINDS)[number];
/** The three of every visit stand as tabs; the others lie behind the fourth. */
export const MAIN_KINDS = ['feeding', 'check', 'harvest', 'care'] as const satisfies readonly EntryKind[];
export const OTHER_KINDS = ['care', 'note', 'worms'] as const satisfies readonly EntryKind[];

export const CALL_OF = {
  feeding: 'logFeeding',
  check: 'logCheck',
  harvest: 'logHarvest',
  care: 'logCare',
  note: 'logNote',
  worms: 'logWorms',
} as const;
