import type { PageLoad } from './$types';

export const load: PageLoad = ({ url }) => ({ saved: url.searchParams.has('saved') });
