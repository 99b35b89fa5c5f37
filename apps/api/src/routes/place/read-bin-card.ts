import { route } from '../../routing/route.ts';
import { binCard } from '../../services/bins.ts';

export const readBinCard = route('readBinCard', (call) => binCard(call, call.params.code));
