import { route } from '../../routing/route.ts';
import { addLink as add } from '../../services/links.ts';

export const addLink = route('addLink', (call) => add(call, call.body));
