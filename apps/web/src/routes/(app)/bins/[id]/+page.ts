import { call, need } from '$lib/api/call.ts';
import { leadOf } from '$lib/bin/lead.ts';
import { quantityOfSignal, readQuantity } from '$lib/bin/quantities.ts';
import type { PageLoad } from './$types';

const SHOWN = 20;

export const load: PageLoad = async ({ fetch, params, url, depends }) => {
  depends('app:bin');
  const before = url.searchParams.get('before') ?? undefined;
  const [bin, outlook, log, life, photos] = await Promise.all([
    need(fetch, 'readBin', { params }),
    need(fetch, 'readOutlook', { params }),
    need(fetch, 'listEntries', { params, query: { before, limit: SHOWN } }),
    need(fetch, 'readLife', { params }),
    call(fetch, 'listPhotos', { params }),
  ]);
  const containers = await need(fetch, 'listContainers', { query: { siteId: bin.siteId } });
  const lead = leadOf(outlook);
  const last = log.items.at(-1);
  return {
    bin,
    outlook,
    entries: log.items,
    life,
    // Pupils see those of their own site; where none may be seen, the page has none.
    photos: photos.ok ? photos.data.items : [],
    did: url.searchParams.has('did'),
    plannedOn: url.searchParams.get('planned'),
    containers: containers.items.filter((c) => !c.archived),
    more: log.more && last ? `?before=${encodeURIComponent(last.happenedAt)}#log` : null,
    isOlder: before !== undefined,
    lead,
    quantity: readQuantity(url.searchParams.get('show'), quantityOfSignal(lead?.signal ?? null)),
  };
};
