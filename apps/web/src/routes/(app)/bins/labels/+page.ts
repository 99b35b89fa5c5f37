import { error } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { labelAddress, leadsOnlyHere } from '$lib/labels/address.ts';
import { labelQr } from '$lib/labels/label-qr.ts';
import type { PageLoad } from './$types';

const PAPERS = ['a4', 'letter'] as const;

export const load: PageLoad = async ({ fetch, url, parent }) => {
  const { person, programme } = await parent();
  if (person.role !== 'coordinator' && person.role !== 'site-lead') error(404, { message: 'not-found', code: 'not-found' });
  const mine = (siteId: string) => person.siteIds.length === 0 || person.siteIds.includes(siteId);
  const bins = (await need(fetch, 'listBins')).items
    .filter((b) => b.state !== 'retired' && mine(b.siteId))
    .sort((a, b) => a.siteName.localeCompare(b.siteName) || a.placeOrder - b.placeOrder);
  const asked = url.searchParams.getAll('bin');
  const chosen = asked.length === 0 ? bins : bins.filter((b) => asked.includes(b.id));
  const paper = PAPERS.find((p) => p === url.searchParams.get('paper')) ?? (programme.locale === 'en-US' ? 'letter' : 'a4');
  const labels = chosen.map((bin) => {
    const address = labelAddress(url.origin, bin.code);
    return { code: bin.code, name: bin.name, siteName: bin.siteName, address, qr: labelQr(address) };
  });
  return { bins, chosen: chosen.map((b) => b.id), paper, labels, host: url.host, onlyHere: leadsOnlyHere(url.origin) };
};
