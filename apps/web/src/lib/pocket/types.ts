import type { Pocket, PocketOutlook } from '@middenry/contract';

export type { Pocket, PocketOutlook };
export type PocketShift = Pocket['shifts'][number];

/** Where a page of the bin side has its facts from. */
export type Source = { readonly from: 'server' } | { readonly from: 'pocket'; readonly asOf: string };
