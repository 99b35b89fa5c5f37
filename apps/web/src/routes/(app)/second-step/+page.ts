import { ownPath } from '$lib/paths/paths.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = ({ url }) => ({ next: ownPath(url.searchParams.get('next')) });
