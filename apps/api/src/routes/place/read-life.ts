import { route } from '../../routing/route.ts';
import { readLife as read } from '../../services/bin-life.ts';

export const readLife = route('readLife', (call) => read(call, call.params.id));
