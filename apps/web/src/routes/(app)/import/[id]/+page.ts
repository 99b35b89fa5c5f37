import { addressOf, need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params }) => ({
  list: await need(fetch, 'readSheetImport', { params: { id: params.id } }),
  refusedFile: addressOf('readRefusedRows', { id: params.id }),
});
