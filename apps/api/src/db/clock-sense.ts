/** The program cannot have run before it was written: an earlier clock is a wrong one (criteria F14). */
const EARLIEST = Date.parse('2026-11-01T00:00:00.000Z');

/** Whether the clock can be right; by one that cannot, nothing runs out, nobody is reminded and nothing is cleared away. */
export const isBelievable = (now: Date): boolean => now.getTime() >= EARLIEST;
