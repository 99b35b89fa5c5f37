import { route } from '../../routing/route.ts';
import { changeProgramme as change } from '../../services/programme.ts';

export const changeProgramme = route('changeProgramme', (call) => change(call, call.body));
