import { route } from '../../routing/route.ts';

export const live = route('live', () => ({ ok: true as const }));
