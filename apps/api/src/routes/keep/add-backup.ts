import { route } from '../../routing/route.ts';
import { backUpNow } from '../../services/keep-shape.ts';

export const addBackup = route('addBackup', (call) => backUpNow(call));
