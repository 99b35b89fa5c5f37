const SEASON_MONTHS = 3;

/** The last three calendar months with this one, up to today. */
export function defaultRange(today: string): { from: string; to: string } {
  const month = Number(today.slice(0, 4)) * 12 + Number(today.slice(5, 7)) - 1 - (SEASON_MONTHS - 1);
  return { from: `${Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, '0')}-01`, to: today };
}

/** A month's key, `2026-09`, as the day it starts on. */
export const monthStart = (key: string): string => `${key.slice(0, 7)}-01`;
