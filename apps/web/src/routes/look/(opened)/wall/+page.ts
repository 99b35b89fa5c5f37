import type { PageLoad } from './$types';

/** The wall for a screen in a hall: by a reader's link, with nobody signed in. */
export const load: PageLoad = ({ url }) => ({ query: url.search });
