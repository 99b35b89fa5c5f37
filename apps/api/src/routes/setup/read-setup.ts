import { route } from '../../routing/route.ts';
import { isSetupOpen } from '../../services/begin-own.ts';

export const readSetup = route('readSetup', (call) => ({ open: isSetupOpen(call) }));
