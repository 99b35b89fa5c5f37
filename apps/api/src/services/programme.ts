import type { ProgrammeChange } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import { findProgramme, type ProgrammeRow, updateProgramme } from '../db/repositories/programme.ts';
import { type Store, write } from '../db/store.ts';
import { refuse } from '../refusal.ts';

/** The programme; before it has been set up there is nothing to show. */
export function programmeOf(store: Store): ProgrammeRow {
  const programme = findProgramme(store);
  if (programme === undefined) throw refuse('not-found');
  return programme;
}

export const programmeShape = ({ id, name, isDemo, timeZone, units, locale, photosOfPeople }: ProgrammeRow) => ({
  id,
  name,
  isDemo,
  timeZone,
  units,
  locale,
  photosOfPeople,
});

export function changeProgramme(context: Signed, body: z.output<typeof ProgrammeChange>) {
  return write(context.store, () => {
    const { id } = programmeOf(context.store);
    updateProgramme(context.store, id, body);
    context.audit('programme-changed', id, { fields: Object.keys(body) });
    return programmeShape(programmeOf(context.store));
  });
}
