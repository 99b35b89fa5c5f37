import { route } from '../../routing/route.ts';
import { listProposals as list } from '../../services/proposals.ts';

export const listProposals = route('listProposals', (call) => list(call, call.query));
