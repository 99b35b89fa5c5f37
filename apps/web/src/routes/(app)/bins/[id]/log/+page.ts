import { need } from '$lib/api/call.ts';
import { ENTRY_KINDS } from '$lib/log/entry-kinds.ts';
import { fieldsOfKind } from '$lib/log/kind-fields.ts';
import { serverOrPocket } from '$lib/pocket/server-or-pocket.ts';
import type { Pocket, PocketOutlook } from '$lib/pocket/types.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, url, depends }) => {
  depends('app:log');
  const facts = await serverOrPocket(
    fetch,
    (send) => fromServer(send, params.id),
    (pocket) => fromPocket(pocket, params.id),
  );
  const kind = ENTRY_KINDS.find((k) => k === url.searchParams.get('kind')) ?? ('feeding' as const);
  const savedId = url.searchParams.get('saved');
  return {
    ...facts,
    containers: facts.containers.filter((c) => !c.archived),
    otherBins: facts.otherBins.filter((b) => b.id !== params.id && b.state !== 'retired'),
    kind,
    fields: await fieldsOfKind(kind),
    preset: presetOf(url),
    savedId,
    SavedEntry: savedId === null ? null : (await import('$lib/log/SavedEntry.svelte')).default,
  };
};

async function fromServer(send: typeof fetch, id: string) {
  const params = { id };
  const bin = await need(send, 'readBin', { params });
  const [outlook, containers, materials, log, bins] = await Promise.all([
    need(send, 'readOutlook', { params, query: { historyDays: 1 } }),
    need(send, 'listContainers', { query: { siteId: bin.siteId } }),
    need(send, 'listMaterials'),
    need(send, 'listEntries', { params, query: { limit: 40 } }),
    need(send, 'listBins'),
  ]);
  const advised: PocketOutlook = outlook;
  return { bin, outlook: advised, containers: containers.items, materials: materials.items, entries: log.items, otherBins: bins.items };
}

function fromPocket({ bins, containers, materials }: Pocket, id: string) {
  const carried = bins.find(({ bin }) => bin.id === id);
  if (carried?.outlook == null) return null;
  const { bin, outlook, entries } = carried;
  const here = containers.filter(({ siteId }) => siteId === bin.siteId);
  return { bin, outlook, entries, containers: here, materials, otherBins: bins.map((other) => other.bin) };
}

/** What the way here has chosen already: an action of care, where worms went, how much of which food. */
function presetOf(url: URL): Record<string, string> {
  const chosen = ['action', 'direction', 'amount', 'weight', 'food'].flatMap((name) => {
    const value = url.searchParams.get(name);
    return value === null ? [] : [[name, value] as const];
  });
  return Object.fromEntries(chosen);
}
