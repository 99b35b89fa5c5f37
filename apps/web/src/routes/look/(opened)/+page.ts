import { readSelection } from '$lib/board/selection.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = ({ url }) => ({ selection: readSelection(url.searchParams) });
