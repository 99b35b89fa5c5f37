import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => {
  const before = Number(url.searchParams.get('before')) || undefined;
  const audit = await need(fetch, 'readAudit', { query: { before } });
  const last = audit.items.at(-1);
  return { lines: audit.items, older: audit.more && last ? `?before=${last.id}` : null };
};
