import { need } from '$lib/api/call.ts';
import { farAddressOf } from '$lib/api/far-address.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params }) => ({
  list: await need(fetch, 'readSheetImport', { params: { id: params.id } }),
  refusedFile: farAddressOf('readRefusedRows', { id: params.id }),
});
