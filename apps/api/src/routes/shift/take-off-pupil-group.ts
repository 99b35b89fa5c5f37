import { route } from '../../routing/route.ts';
import { takeOffPupilGroup as takeOff } from '../../services/pupil-groups.ts';

export const takeOffPupilGroup = route('takeOffPupilGroup', (call) => takeOff(call, call.params, call.ownSite));
