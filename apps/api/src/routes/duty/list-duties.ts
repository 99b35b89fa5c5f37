import { route } from '../../routing/route.ts';
import { listDuties as list } from '../../services/duties.ts';

export const listDuties = route('listDuties', async (call) => ({ items: await list(call, call.query) }));
