import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, url }) => {
  const entry = await need(fetch, 'readEntry', { params });
  const [bin, history, materials, bins] = await Promise.all([
    need(fetch, 'readBin', { params: { id: entry.binId } }),
    need(fetch, 'readEntryHistory', { params }),
    need(fetch, 'listMaterials'),
    need(fetch, 'listBins'),
  ]);
  return {
    entry,
    bin,
    history: history.items,
    otherBins: bins.items.filter((b) => b.id !== bin.id).map((b) => ({ value: b.id, word: b.code })),
    foods: materials.items.filter((m) => m.kind !== 'never' && !m.hidden),
    done: url.searchParams.get('done'),
  };
};
