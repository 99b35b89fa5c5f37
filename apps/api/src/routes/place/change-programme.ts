import { updateProgramme } from '../../db/repositories/programme.ts';
import { write } from '../../db/store.ts';
import { route } from '../../routing/route.ts';
import { programmeOf, programmeShape } from '../../services/programme.ts';

export const changeProgramme = route('changeProgramme', (call) =>
  write(call.store, () => {
    const { id } = programmeOf(call.store);
    updateProgramme(call.store, id, call.body);
    call.audit('programme-changed', id, { fields: Object.keys(call.body) });
    return programmeShape(programmeOf(call.store));
  }),
);
