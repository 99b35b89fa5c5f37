import { need } from '$lib/api/call.ts';
import { leadOf } from '$lib/bin/lead.ts';
import type { PageLoad } from './$types';

/** As many as leave room on one sheet for the rows to write in. */
const SHOWN = 5;

export const load: PageLoad = async ({ fetch, params }) => {
  const [bin, outlook, log, materials] = await Promise.all([
    need(fetch, 'readBin', { params }),
    need(fetch, 'readOutlook', { params }),
    need(fetch, 'listEntries', { params, query: { limit: SHOWN } }),
    need(fetch, 'listMaterials'),
  ]);
  const containers = await need(fetch, 'listContainers', { query: { siteId: bin.siteId } });
  const shown = materials.items.filter((m) => !m.hidden);
  return {
    bin,
    outlook,
    lead: leadOf(outlook),
    entries: log.items.filter((entry) => entry.undoneAt === null),
    containers: containers.items.filter((c) => !c.archived),
    little: shown.filter((m) => m.kind === 'food' && m.keepBack).map((m) => m.name),
    never: shown.filter((m) => m.kind === 'never').map((m) => m.name),
  };
};
