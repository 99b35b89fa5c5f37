import { route } from '../../routing/route.ts';
import { programmeOf, programmeShape } from '../../services/programme.ts';

export const readProgramme = route('readProgramme', (call) => programmeShape(programmeOf(call.store)));
