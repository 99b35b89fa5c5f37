import { filled } from './call.ts';
import { FAR_CALLS, type FarCall } from './far-calls.ts';

/** The address of a call that is not made at the bin, for a page that offers it as a link. */
export const farAddressOf = (name: FarCall, ...filling: [Parameters<typeof filled>[1]?, Parameters<typeof filled>[2]?]): string =>
  filled(FAR_CALLS[name], ...filling);
