import { need } from '$lib/api/call.ts';
import { serverOrPocket } from '$lib/pocket/server-or-pocket.ts';
import type { PocketShift } from '$lib/pocket/types.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => {
  const { bins, shifts, source } = await serverOrPocket(
    fetch,
    async (send) => ({ bins: (await need(send, 'listBins')).items, shifts: [] as PocketShift[] }),
    (pocket) => ({ bins: pocket.bins.map(({ bin }) => bin), shifts: pocket.shifts }),
  );
  return { bins: bins.filter((b) => b.state !== 'retired'), shifts, source, wanted: url.searchParams.get('wanted') };
};
