import { redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { typedCode } from '$lib/bin/typed-code.ts';
import { paths } from '$lib/paths/paths.ts';
import { serverOrPocket } from '$lib/pocket/server-or-pocket.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => {
  const { all } = await serverOrPocket(
    fetch,
    async (send) => ({ all: (await need(send, 'listBins')).items }),
    (pocket) => ({ all: pocket.bins.map(({ bin }) => bin) }),
  );
  const bins = all.filter((b) => b.state !== 'retired');
  const typed = url.searchParams.get('code');
  if (typed === null) return { bins, unknown: null };
  const bin = all.find((b) => b.code === typedCode(typed));
  // Of a bin that is no longer used there is only its life to read.
  if (bin !== undefined) redirect(303, bin.state === 'retired' ? paths.bin(bin.id) : paths.binLog(bin.id));
  return { bins, unknown: typed.trim() };
};
