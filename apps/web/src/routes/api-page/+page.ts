import { call } from '$lib/api/call.ts';
import { type ApiLine, readOpenApi } from '$lib/api/read-openapi.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch }) => {
  const outcome = await call(fetch, 'openapi');
  const groups: { tag: string; lines: ApiLine[] }[] = outcome.ok ? readOpenApi(outcome.data) : [];
  return { groups };
};
