import { findProgramme, type ProgrammeRow } from '../db/repositories/programme.ts';
import type { Store } from '../db/store.ts';
import { refuse } from '../refusal.ts';

/** The programme; before it has been set up there is nothing to show. */
export function programmeOf(store: Store): ProgrammeRow {
  const programme = findProgramme(store);
  if (programme === undefined) throw refuse('not-found');
  return programme;
}

export const programmeShape = ({ id, name, isDemo, timeZone, units, locale }: ProgrammeRow) => ({
  id,
  name,
  isDemo,
  timeZone,
  units,
  locale,
});
