import { route } from '../../routing/route.ts';
import { listMaterials as list } from '../../services/stuff.ts';

export const listMaterials = route('listMaterials', (call) => ({ items: list(call) }));
