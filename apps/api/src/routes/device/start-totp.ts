import { route } from '../../routing/route.ts';
import { startTotp as start } from '../../services/second-step.ts';

export const startTotp = route('startTotp', (call) => start(call));
