import { findProgramme } from '../../db/repositories/programme.ts';
import { route } from '../../routing/route.ts';

export const readSetup = route('readSetup', (call) => ({
  open: findProgramme(call.store) === undefined && (call.setupCode?.isOpen() ?? false),
}));
