import { paths } from '../paths/paths.ts';

/** Longer ones make modules too small for a phone held a step away (criteria B20). */
export const LONGEST_ADDRESS = 40;

/** What a label's code says: no secret, only where the bin's page is. */
export const labelAddress = (origin: string, code: string): string => origin + paths.byCode(code);

/** Whether the address leads anywhere but on this machine. */
export const leadsOnlyHere = (origin: string): boolean => /^(localhost|127\.\d+\.\d+\.\d+|\[::1\])$/.test(new URL(origin).hostname);
