import { route } from '../../routing/route.ts';
import { confirmTotp as confirm } from '../../services/second-step.ts';

export const confirmTotp = route('confirmTotp', (call) => confirm(call, call.body.code));
