import { route } from '../../routing/route.ts';
import { addPupilGroup as add } from '../../services/pupil-groups.ts';

export const addPupilGroup = route('addPupilGroup', (call) => add(call, call.params.id, call.body, call.ownSite));
