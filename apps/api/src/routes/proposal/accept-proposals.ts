import { route } from '../../routing/route.ts';
import { acceptProposals as accept } from '../../services/accepted-proposals.ts';

export const acceptProposals = route('acceptProposals', (call) => {
  call.ownSite(call.body.siteId);
  return { items: accept(call, call.body) };
});
