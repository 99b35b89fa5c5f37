import { need } from '$lib/api/call.ts';
import { ENTRY_KINDS } from '$lib/log/entry-kinds.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, url }) => {
  const bin = await need(fetch, 'readBin', { params });
  const [outlook, containers, materials, log, bins] = await Promise.all([
    need(fetch, 'readOutlook', { params, query: { historyDays: 1 } }),
    need(fetch, 'listContainers', { query: { siteId: bin.siteId } }),
    need(fetch, 'listMaterials'),
    need(fetch, 'listEntries', { params, query: { limit: 40 } }),
    need(fetch, 'listBins'),
  ]);
  return {
    bin,
    outlook,
    containers: containers.items.filter((c) => !c.archived),
    materials: materials.items,
    entries: log.items,
    otherBins: bins.items.filter((b) => b.id !== bin.id && b.state !== 'retired'),
    kind: ENTRY_KINDS.find((k) => k === url.searchParams.get('kind')) ?? ('feeding' as const),
    preset: presetOf(url),
    savedId: url.searchParams.get('saved'),
  };
};

/** What the way here has chosen already: an action of care, where worms went. */
function presetOf(url: URL): Record<string, string> {
  const chosen = ['action', 'direction'].flatMap((name) => {
    const value = url.searchParams.get(name);
    return value === null ? [] : [[name, value] as const];
  });
  return Object.fromEntries(chosen);
}
